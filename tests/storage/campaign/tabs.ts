import { rm } from 'node:fs/promises';
import { openStore } from '../../../src/lib/server/storage';
import { aCase, aReflection, now } from '../../made-up/stored';
import { freshIn, type Outcome } from './cuts';

/**
 * So many tabs at once: each adds a case, edits one case from the same version, counts the settings up, and writes a
 * reflection. Every answer that says stored must be there, and of the edits of one version just one.
 */
export async function tabsAtOnce(tabs: number): Promise<Outcome> {
  const folder = await freshIn();
  const lost: string[] = [];
  try {
    const store = await openStore(folder, now);
    const edited = await store.recordCase(aCase('EDITED'));
    const each = Array.from({ length: tabs }, (_, tab) => tab);
    const [added, edits, settings, notes] = await Promise.all([
      Promise.allSettled(each.map((tab) => store.recordCase(aCase(`T${tab}`, { sequence: tab + 2 })))),
      Promise.allSettled(each.map((tab) => store.updateCase({ ...edited, position: tab + 1 }, 'Place', now))),
      Promise.allSettled(
        each.map(() =>
          store.changeProfile((stored) => ({
            ...stored,
            casesBefore: { phaco: (stored.casesBefore['phaco'] ?? 0) + 1 },
          })),
        ),
      ),
      Promise.allSettled(each.map(() => store.saveReflection(aReflection([edited.id])))),
    ]);
    await store.close();
    const again = await openStore(folder, now);
    const { cases, profile, reflections } = await again.everything();
    await again.close();
    const stored = (answers: readonly PromiseSettledResult<unknown>[]) =>
      answers.filter(({ status }) => status === 'fulfilled').length;
    const compare = (what: string, said: number, there: number) => {
      if (said !== there) lost.push(`${what}: ${said} acknowledged, ${there} there`);
    };
    compare('cases added', stored(added), cases.length - 1);
    compare('ids given once', cases.length, new Set(cases.map(({ id }) => id)).size);
    compare('edits of one version', 1, stored(edits));
    compare('that edit', stored(edits), (cases.find(({ id }) => id === edited.id)?.version ?? 0) - 1);
    compare('settings', stored(settings), profile.casesBefore['phaco'] ?? 0);
    compare('reflections', stored(notes), reflections.length);
    const acknowledged = [added, edits, settings, notes].reduce((sum, answers) => sum + stored(answers), 0);
    return { acknowledged, found: lost.length === 0 ? acknowledged : 0, lost, states: 1 };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
