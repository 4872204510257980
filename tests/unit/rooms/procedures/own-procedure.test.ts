import { describe, expect, it } from 'vitest';
import { assess, readAudit } from '../../../../src/lib';
import { casesView, filterFrom } from '../../../../src/lib/rooms/cases/cases-view';
import { chooseView } from '../../../../src/lib/rooms/choose/choose-view';
import { recordFromReading } from '../../../../src/lib/assess/from-reading';
import { timesView } from '../../../../src/lib/rooms/cases/new-case-view';
import { stepRows } from '../../../../src/lib/rooms/checkpoints/checkpoints-view';
import { emptyProfile } from '../../../../src/lib/model';
import { loadGuidance, loadProcedures } from '../../../../src/lib/server/content/library';
import { randomStream } from '../../../../src/lib/statistics';
import { graft, graftRows } from '../../../made-up/graft';

const procedures = [...loadProcedures(), graft];

/** 30 made-up grafts in lists of three: the remaining sutures hold most seconds and vary most. */
const csv = (() => {
  const usual = [90, 60, 45, 80, 20, 300, 900, 120, 100];
  const rows = ['case_id,date,step,seconds'];
  for (let index = 0; index < 30; index++) {
    const stream = randomStream(11, index);
    const day = new Date(Date.UTC(2026, 1, 2 + 7 * Math.floor(index / 3))).toISOString().slice(0, 10);
    graftRows.forEach(([label], step) => {
      const spread = label === 'Remaining sutures' ? 0.4 : 0.12;
      rows.push(
        `K${index + 1},${day},${label},${((usual[step] ?? 0) * Math.exp(spread * stream.normal())).toFixed(1)}`,
      );
    });
  }
  return rows.join('\n');
})();

describe('a nine-step graft of the surgeon’s own', () => {
  const reading = readAudit({ text: csv, fileName: 'grafts.csv', procedures });

  it('is known by its own step names among the shipped procedures, with every row taken', () => {
    expect(reading.procedureId).toBe('corneal-graft');
    expect([reading.rowsIn, reading.rowsTaken]).toEqual([270, 270]);
    expect(reading.problems).toEqual([]);
    expect(reading.cases).toHaveLength(30);
    expect(new Set(reading.cases.flatMap(({ stretches }) => stretches.map(({ stepId }) => stepId))).size).toBe(9);
  });

  it('is assessed like any other, and needs no written guidance', () => {
    const answer = assess({ reading, procedures, guidance: loadGuidance(), seed: 1, resamples: 300 });
    if (answer.kind !== 'assessed') throw new Error(answer.because);
    expect(answer.assessment).toMatchObject({ procedure: 'corneal-graft', cases: 30, lists: 10, left_out: [] });
    expect(answer.assessment.steps.map(({ label }) => label)).toEqual(graftRows.map(([label]) => label));
    expect(answer.assessment.suggestion).toMatchObject({ kind: 'time', steps: ['remaining-sutures'] });
    expect(JSON.stringify(answer.assessment)).not.toMatch(/NaN|Infinity|undefined/);

    const room = chooseView(answer.audit, answer.suggestion, 'seconds', {
      heldBack: 0,
      procedure: 'corneal-graft',
    });
    expect(room.rows).toHaveLength(9);
    expect(room.suggestion.head).toContain('remaining sutures');
  });

  it('stands in Cases, in the page for typing times, and in Checkpoints with empty pages to fill', () => {
    const read = recordFromReading(reading, graft);
    const record = {
      ...read,
      profile: { ...emptyProfile, procedureId: graft.id },
      procedures,
      goals: [],
      results: [],
      reflections: [],
    };
    const view = casesView(record, new Set(), filterFrom(new URLSearchParams()));
    expect(view.total).toBe(30);
    expect(view.groups[0]?.rows[0]?.summary).not.toBeNull();
    expect(timesView(graft, 'K31').steps.map(({ label }) => label)).toEqual(graftRows.map(([label]) => label));
    const rows = stepRows(graft, loadGuidance(), []);
    expect(rows.map(({ hasPage }) => hasPage)).toEqual(Array.from({ length: 9 }, () => false));
    expect(rows[0]?.href).toBe('/checkpoints/corneal-graft/support-ring');
  });
});
