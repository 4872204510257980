/** What a family of tests needs of one member; `own`: besides its p it meets what a claim asks for. */
export type Testable = { p: number; own: boolean };

/**
 * Holm's step-down for one family of tests: the smallest p against α/m, m the members still open. What is found leaves
 * the family, and the others are tested again without it, because what they are compared with has changed. A member
 * whose claim fails for another reason than its p stays open and goes on counting in m, which only makes it stricter.
 * With p-values that stay as they are, this is Holm's procedure (Holm S. Scandinavian Journal of Statistics 1979;6:65).
 *
 * @param alpha chance of any wrong finding in the family, 0..1
 * @param test the open members once some were found; a member it leaves out cannot be tested in this round
 * @returns each member with its last test: those found, in the order found, and those still open
 */
export function stepDown<Id, Test extends Testable>(
  family: readonly Id[],
  alpha: number,
  test: (open: readonly Id[], found: readonly Id[]) => ReadonlyMap<Id, Test>,
): { found: ReadonlyMap<Id, Test>; open: ReadonlyMap<Id, Test> } {
  const found = new Map<Id, Test>();
  for (;;) {
    const open = family.filter((id) => !found.has(id));
    const tested = test(open, [...found.keys()]);
    let best: [Id, Test] | null = null;
    for (const [id, each] of tested) if (each.own && (best === null || each.p < best[1].p)) best = [id, each];
    if (!best || !(best[1].p <= alpha / open.length)) return { found, open: tested };
    found.set(...best);
  }
}
