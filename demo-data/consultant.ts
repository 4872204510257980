import type { Case } from '../src/lib/model';
import { randomStream } from '../src/lib/statistics';
import { invented } from './invent';

/**
 * The consultant: 600 cases from a spreadsheet without dates or lists, lengths only, events never asked.
 * THE TRUTH: nothing stands out. Long steps vary less and short ones more, so that no step holds clearly
 * more seconds than the next, and none varies clearly more: usual seconds and standard deviation of the logarithm.
 */
const STEPS: Record<string, readonly [usual: number, logSd: number]> = {
  'side-port': [12, 0.2],
  'ovd-fill': [16, 0.2],
  'main-incision': [18, 0.2],
  capsulorhexis: [40, 0.24],
  hydrodissection: [24, 0.24],
  'nucleus-disassembly': [58, 0.17],
  'segment-removal': [62, 0.16],
  'cortex-aspiration': [45, 0.215],
  'iol-insertion': [34, 0.24],
  'ovd-removal': [32, 0.24],
  'wound-check': [40, 0.18],
};

export function inventConsultant(seed: number): Case[] {
  return Array.from({ length: 600 }, (_, index) => {
    const stream = randomStream(seed, index);
    const ofTheDay = Math.exp(0.06 * randomStream(seed, 5000, Math.floor(index / 8)).normal());
    const ofThisCase = Math.exp(0.1 * stream.normal());
    return invented(index + 1, {
      code: `C${String(index + 1).padStart(4, '0')}`,
      procedureId: 'phaco',
      sequence: index + 1,
      events: null,
      stretches: Object.entries(STEPS).map(([stepId, [usual, logSd]]) => ({
        stepId,
        start: null,
        end: null,
        seconds: Math.max(1, Math.round(usual * ofTheDay * ofThisCase * Math.exp(logSd * stream.normal()) * 10) / 10),
        kind: 'step' as const,
        reason: null,
      })),
    });
  });
}
