import { withoutPeople, type TakenOut, type WithoutPeople } from '../intake';
import type { BringInView } from '../rooms/bring-in/bring-in-view';
import { bundled } from '../turns';
import { inTurns } from './in-turns';
import { proceduresOf } from './procedures';
import type { HeldImport, Store } from './storage/port';

/** Where a held file keeps what was taken out of it before it was held, and the hash of its text as it was sent. */
const [TAKEN_OUT, AS_SENT] = ['takenOut', 'asSent'] as const;

const inNone: TakenOut = { columns: [], rows: [], codes: null };

/** The text of a part as it may be held, and what to keep beside it. */
export async function withoutPersons(
  store: Store,
  text: string,
  ownCodes: boolean,
  hash: (text: string) => string,
): Promise<WithoutPeople & { choices: Record<string, string> }> {
  const known = new Set((await store.cases()).map(({ code }) => code));
  const without = await inTurns(bundled(withoutPeople(text, await proceduresOf(store), { ownCodes, known })));
  const choices: Record<string, string> =
    without.text === text ? {} : { [TAKEN_OUT]: JSON.stringify(without.out), [AS_SENT]: hash(text) };
  return { ...without, choices };
}

export const hashAsSent = ({ choices }: HeldImport): string | undefined => choices[AS_SENT];

export function takenOut({ choices }: HeldImport): TakenOut {
  return choices[TAKEN_OUT] === undefined ? inNone : { ...inNone, ...(JSON.parse(choices[TAKEN_OUT]) as object) };
}

/** Names of surgeons live in this process alone, as long as somebody may have to say who they are. */
const names = new Map<string, ReadonlyMap<string, string>>();
const FILES_MOST = 48;

export function rememberSurgeons(importId: string, surgeons: ReadonlyMap<string, string>): void {
  if (surgeons.size === 0) return;
  names.set(importId, surgeons);
  for (const oldest of names.keys()) {
    if (names.size <= FILES_MOST) break;
    names.delete(oldest);
  }
}

/** Names of files that are held no longer. */
export function forgetSurgeons(held: readonly Pick<HeldImport, 'id'>[]): void {
  for (const id of names.keys()) if (!held.some((each) => each.id === id)) names.delete(id);
}

/** "Who is surgeon 1?" with the name as it was written, as long as it is known. */
export function withSurgeons(importId: string, questions: BringInView['questions']): BringInView['questions'] {
  const known = names.get(importId);
  if (!known) return questions;
  return questions.map((asked) => {
    const standIn = /^(?:surgeon|hands):(.*)$/.exec(asked.id)?.[1] ?? '';
    const name = known.get(standIn);
    const question = asked.question.replace(`"${standIn}"`, () => `"${name ?? standIn}" (${standIn} in the rows)`);
    return name === undefined ? asked : { ...asked, question };
  });
}
