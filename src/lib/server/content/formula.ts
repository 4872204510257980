/** Small letters and figures as Unicode has them, in the order of `PLAIN`. Neither typeface holds them. */
const LOW = [...'₀₁₂₃₄₅₆₇₈₉₊₋₍₎ₐₑᵢⱼₖₗₘₙₚₜᵦ'];
const PLAIN = [...'0123456789+−()aeijklmnptβ'];

/**
 * A formula as HTML: what stands low or high is set small in the page's own typeface. Content writes indices as
 * Unicode's small letters (`xᵢ₋₁`) and powers with a caret (`0.05^(1/n)`, `D^½`).
 * @param html escaped
 */
export const formulaHtml = (html: string): string =>
  html
    .replace(
      new RegExp(`[${LOW.join('')}]+`, 'g'),
      (low) => `<sub>${[...low].map((c) => PLAIN[LOW.indexOf(c)]).join('')}</sub>`,
    )
    .replace(/\^(?:\(([^()]*)\)|([\w½]+|[+−]))/g, (_, inner?: string, one?: string) => `<sup>${inner ?? one}</sup>`);
