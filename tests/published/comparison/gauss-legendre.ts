/**
 * Nodes and weights of Gauss–Legendre quadrature on [from, to] (Newton's steps on the Legendre recurrence;
 * Abramowitz and Stegun 1964, 25.4.30): sums of smooth functions at the nodes are integrals to machine precision.
 */
export function gaussLegendre(count: number, from: number, to: number): { nodes: Float64Array; weights: Float64Array } {
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const half = (to - from) / 2;
  for (let i = 0; i < count; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let previous = 1;
      let value = x;
      for (let degree = 2; degree <= count; degree++) {
        const next = ((2 * degree - 1) * x * value - (degree - 1) * previous) / degree;
        previous = value;
        value = next;
      }
      slope = (count * (x * value - previous)) / (x * x - 1);
      const move = value / slope;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    nodes[i] = (from + to) / 2 - half * x;
    weights[i] = (2 * half) / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}
