import type { Procedure } from '../../model';

/** Short forms of one label, the most natural first: first letter, initials of two words, first letter and a later one. */
function candidates(label: string): string[] {
  const words = label.split(/[^\p{L}\p{N}]+/u).filter(Boolean);
  const [first = '?', second = ''] = words;
  const head = first.charAt(0).toUpperCase();
  const others = [second.charAt(0), ...first.slice(1), ...second.slice(1)].filter(Boolean);
  return [head, ...others.map((letter) => head + letter.toLowerCase())];
}

/**
 * One or two letters a step, each step its own, for the small drawing of a case. A single letter only where no other
 * step begins with it.
 */
export function stepInitials(procedure: Pick<Procedure, 'steps'>): Record<string, string> {
  const heads = procedure.steps.map(({ label }) => candidates(label)[0]);
  const taken = new Set<string>();
  return Object.fromEntries(
    procedure.steps.map(({ id, label }, index) => {
      const shared = heads.filter((head) => head === heads[index]).length > 1;
      const free = candidates(label)
        .slice(shared ? 1 : 0)
        .find((each) => !taken.has(each));
      const initial = free ?? `${heads[index] ?? ''}${index + 1}`;
      taken.add(initial);
      return [id, initial];
    }),
  );
}
