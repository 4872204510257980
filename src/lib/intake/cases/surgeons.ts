import { counted } from '../../format';
import { parted, type Steps } from '../../turns';
import { cellOf, type Column } from '../headings/column';
import { plainWords } from '../labels/plain-words';
import type { Ask } from '../questions';
import type { Row } from '../table/cells';
import { weights } from '../weights';

/** `me`, a reader of the reference set without a name, or left out. */
export type Role = 'me' | 'leave' | `R${number}`;

/** Words by which people call themselves in a column of surgeons. */
export const CALLED_ME: ReadonlySet<string> = new Set(['me', 'i', 'self', 'myself', 'own', 'mine', 'ich', 'moi', 'yo']);

/**
 * Who each name in the surgeon column is. Names go no further than this: other surgeons become R1, R2 in order of
 * appearance. Asked when there is more than one; guess: the one with most rows is me, the others are left out.
 *
 * @param asked.named somebody was named beforehand: then one name alone in a file need not be me
 * @param asked.besideOwn in a record that has own cases nobody is taken for me who is not called so
 */
export function* surgeonRoles(
  all: readonly Row[],
  column: Column | undefined,
  ask: Ask,
  asked: { named: boolean; besideOwn: boolean },
): Steps<(row: Row) => Role> {
  const rows = new Map<string, { name: string; first: number; count: number }>();
  if (!column) return () => 'me';
  for (const part of parted(all)) {
    yield part.length * weights.row;
    for (const row of part) {
      const name = cellOf(row, column);
      const found = rows.get(plainWords(name));
      if (found) found.count += 1;
      else rows.set(plainWords(name), { name, first: row.row, count: 1 });
    }
  }
  const [only = ''] = rows.keys();
  const isMe = only === '' || (!asked.named && (!asked.besideOwn || CALLED_ME.has(only)));
  if (rows.size <= 1 && isMe) return () => 'me';
  const most = [...rows].reduce((best, next) => (next[1].count > best[1].count ? next : best))[0];
  const me = [...rows.keys()].find((name) => CALLED_ME.has(name)) ?? (asked.besideOwn ? null : most);
  const roles = new Map<string, Role>();
  let readers = 0;
  for (const [key, { name, first, count }] of rows) {
    const answer = ask({
      id: `surgeon:${name}`,
      question: name === '' ? 'Whose are the rows with no surgeon?' : `Who is "${name}"?`,
      options: [
        { value: 'me', label: 'me' },
        { value: 'reference', label: 'another surgeon who agreed: reference set' },
        { value: 'leave', label: 'another surgeon: leave out' },
      ],
      guess: key === me ? 'me' : 'leave',
      mustAnswer: true,
      examples: [{ row: first, text: counted(count, 'row') }],
    });
    if (answer === 'reference') readers += 1;
    roles.set(key, answer === 'me' ? 'me' : answer === 'reference' ? `R${readers}` : 'leave');
  }
  const some = [...roles.values()].some((role) => role.startsWith('R'));
  const without = some && !agreed(ask);
  return (row) => {
    const role = roles.get(plainWords(cellOf(row, column))) ?? 'leave';
    return without && role !== 'me' ? 'leave' : role;
  };
}

const agreed = (ask: Ask): boolean =>
  ask({
    id: 'agreed',
    question: 'Did the surgeons of the reference set agree that you use their times?',
    options: [
      { value: 'yes', label: 'yes, they agreed' },
      { value: 'no', label: 'no: leave their rows out' },
    ],
    guess: 'no',
    mustAnswer: true,
  }) === 'yes';
