/** The part of jstat used as a second opinion; it ships no types. Good to about 1e-6, no closer. */
declare module 'jstat' {
  const library: {
    jStat: {
      studentt: { inv(p: number, df: number): number; cdf(x: number, df: number): number };
      beta: { inv(p: number, a: number, b: number): number; cdf(x: number, a: number, b: number): number };
      normal: { inv(p: number, mean: number, sd: number): number; cdf(x: number, mean: number, sd: number): number };
      centralF: { cdf(x: number, df1: number, df2: number): number };
      chisquare: { cdf(x: number, df: number): number };
      binomial: { cdf(k: number, n: number, p: number): number };
      spearmancoeff(x: readonly number[], y: readonly number[]): number;
    };
  };
  export default library;
}
