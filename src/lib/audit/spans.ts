/** A closed interval of clock readings, seconds. */
export type Span = { from: number; to: number };

/** Sorted and joined: overlapping or touching spans become one. Never changes its argument. */
export function joined(spans: readonly Span[]): Span[] {
  const sorted = [...spans].sort((a, b) => a.from - b.from || a.to - b.to);
  const result: Span[] = [];
  for (const span of sorted) {
    const last = result.at(-1);
    if (last && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else result.push({ ...span });
  }
  return result;
}

export function totalLength(spans: readonly Span[]): number {
  return joined(spans).reduce((sum, span) => sum + span.to - span.from, 0);
}

/** What of `spans` is left when `holes` are taken out: its length in seconds. */
export function lengthWithout(spans: readonly Span[], holes: readonly Span[]): number {
  const cut = joined(holes);
  let length = 0;
  for (const span of joined(spans)) {
    length += span.to - span.from;
    for (const hole of cut) length -= Math.max(0, Math.min(span.to, hole.to) - Math.max(span.from, hole.from));
  }
  return length;
}
