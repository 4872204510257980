import { readTimingDraft, type TimingDraft } from '../recording';
import type { Store } from './storage/port';

/** A timing on its way as it is kept: how often it was, and by which tab last. */
export type KeptTiming = { revision: number; tab: string; draft: TimingDraft };

const PREFIX = 'timing:';
export const timingKey = (code: string): string => `${PREFIX}${code}`;

function read(text: string | null): KeptTiming | null {
  try {
    const value: unknown = text === null ? null : JSON.parse(text);
    if (typeof value !== 'object' || value === null) return null;
    const { revision, tab, draft } = value as Record<string, unknown>;
    const timing = readTimingDraft(JSON.stringify(draft ?? null));
    return timing && typeof tab === 'string' && Number.isInteger(revision)
      ? { revision: revision as number, tab, draft: timing }
      : null;
  } catch {
    return null;
  }
}

export const keptTiming = async (store: Store, code: string): Promise<KeptTiming | null> =>
  read(await store.draft(timingKey(code)));

/** Codes of the cases that are being timed, the one kept last first. */
export const timingsUnderWay = async (store: Store): Promise<KeptTiming[]> =>
  (await store.draftsNamed(PREFIX)).flatMap(({ value }) => read(value) ?? []).reverse();

/** Another tab kept marks after this one had read them: nothing is written over. */
class Overtaken extends Error {
  constructor(readonly kept: KeptTiming) {
    super('kept elsewhere meanwhile');
  }
}

/**
 * Keeps a draft, unless another tab has kept one since `base`.
 *
 * @param base the revision these marks rest on; 0 for none
 */
export async function keepTiming(
  store: Store,
  { draft, base, tab }: { draft: TimingDraft; base: number; tab: string },
): Promise<{ revision: number; overtakenBy: null } | { revision: number; overtakenBy: TimingDraft }> {
  let revision = base + 1;
  try {
    await store.changeDraft(timingKey(draft.code), (stored) => {
      const kept = read(stored);
      if (kept && kept.revision > base && kept.tab !== tab) throw new Overtaken(kept);
      revision = Math.max(base, kept?.revision ?? 0) + 1;
      return JSON.stringify({ revision, tab, draft });
    });
    return { revision, overtakenBy: null };
  } catch (why) {
    if (why instanceof Overtaken) return { revision: why.kept.revision, overtakenBy: why.kept.draft };
    throw why;
  }
}
