import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { hashOfCases } from '../../src/lib/practice';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { readText } from './backup-text';
import { now } from '../made-up/stored';
import { freshFolder } from './stores';

/** A full backup as version 3 wrote it: an invented surgeon's, cut down, with every field that got another name. */
const text = await readFile(new URL('./earlier/backup-3.json', import.meta.url), 'utf8');
const old = JSON.parse(text);

const OLD_NAMES =
  /"(keptParts|keptSeen|keptPartId|wentBackNoted|seenWhileOut|oneInFive|usual|startUsual|rangeStart|startIds|nStart|allowance|allowanceSpread|already|said)"|"kind": ?"kept"/g;

const read = async () => {
  const found = await readText(text);
  if ('problem' in found) throw new Error(found.problem);
  return found.everything;
};

describe('a record of version 3', () => {
  it('holds every old name, so that none is forgotten here', () => {
    expect(new Set(text.match(OLD_NAMES)).size).toBe(16);
  });

  it('comes back from a backup under the names of today, with the same values', async () => {
    const everything = await read();
    expect(JSON.stringify(everything)).not.toMatch(OLD_NAMES);
    const [goal, was] = [everything.goals[0], old.goals[0]];
    expect(goal?.baseline).toEqual({
      caseIds: was.start.caseIds,
      frozen: {
        columns: was.start.frozen.columns,
        coefficients: was.start.frozen.coefficients,
        centre: was.start.frozen.centre,
        median: was.start.frozen.usual,
        p20: was.start.frozen.oneInFive,
      },
      selectionAllowance: was.start.allowance,
      selectionAllowanceSpread: was.start.allowanceSpread,
      steer: was.start.steer,
      seed: was.start.seed,
      engine: was.start.engine,
      hash: was.start.hash,
    });
    expect(goal?.erased).toEqual({ baseline: was.erased.start, window: was.erased.window });
    const [result, before] = [everything.results[0], old.results[0]];
    expect(result).toMatchObject({ baselineIds: before.startIds, windowIds: before.windowIds });
    expect(result?.outcome).toMatchObject({
      kind: before.outcome.kind,
      selectionAllowance: before.outcome.allowance,
      baselineMedian: before.outcome.startUsual,
      rangeBaseline: before.outcome.rangeStart,
      priorTrend: before.outcome.already,
      caveats: before.outcome.said,
    });
    expect(result?.outcome.against?.nBaseline).toBe(before.outcome.against.nStart);
    expect(result?.outcome.against?.estimate).toBe(before.outcome.against.estimate);
    for (const [index, one] of everything.cases.entries()) {
      const case3 = old.cases[index];
      expect(one.returnsNoted).toEqual(case3.wentBackNoted);
      expect(one.protectedSeen).toEqual(case3.keptSeen);
      expect(one.timesSeenWhileLeftOut).toBe(case3.seenWhileOut);
      expect(one.stretches.map(({ seconds }) => seconds)).toEqual(
        case3.stretches.map(({ seconds }: { seconds: number }) => seconds),
      );
      expect(one.stretches.filter(({ kind }) => kind === 'protected')).toHaveLength(
        case3.stretches.filter(({ kind }: { kind: string }) => kind === 'kept').length,
      );
    }
    expect(everything.reflections[0]?.protectedSeen).toEqual(
      old.reflections[0].keptSeen.map((row: { caseId: string; keptPartId: string; seen: boolean }) => ({
        caseId: row.caseId,
        protectedPartId: row.keptPartId,
        seen: row.seen,
      })),
    );
    expect(everything.procedures[0]?.steps[0]?.protectedParts).toEqual(old.procedures[0].steps[0].keptParts);
  });

  it('keeps the fingerprints that its results were stored with', async () => {
    // Written out as version 3 made them, under the names it had.
    const rows = [...old.cases]
      .sort((a, b) => (a.id < b.id ? -1 : 1))
      .map((one) => [
        one.id,
        one.listId,
        one.sequence,
        Object.entries(one.facts).sort(([a], [b]) => (a < b ? -1 : 1)),
        one.hands.whole,
        Object.entries(one.hands.steps).sort(([a], [b]) => (a < b ? -1 : 1)),
        one.stretches.map((each: Record<string, unknown>) => [
          each.stepId,
          each.start,
          each.end,
          each.seconds,
          each.kind,
        ]),
        one.leftOut === null,
      ]);
    expect(hashOfCases((await read()).cases)).toBe(createHash('sha256').update(JSON.stringify(rows)).digest('hex'));
  });

  it('is read from a folder as it is from a backup', async () => {
    const folder = await freshFolder();
    for (const sub of ['cases', 'reflections']) await mkdir(join(folder, sub));
    const put = (name: string, document: object) =>
      writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: 3, ...document }));
    await put('cases/1', { next: 900, records: old.cases });
    await put('reflections/1', { next: 900, records: old.reflections });
    await put('goals', { next: 9, records: old.goals });
    await put('results', { next: 9, records: old.results });
    await put('lists', { next: 900, records: old.lists });
    await put('procedures', { records: old.procedures });
    await put('contents', { documents: ['cases/1', 'goals', 'lists', 'procedures', 'reflections/1', 'results'] });
    const store = await openDiskStore(folder, now);
    const everything = await read();
    expect(await store.cases()).toEqual(everything.cases);
    expect(await store.goals()).toEqual(everything.goals);
    expect(await store.results()).toEqual(everything.results);
    expect(await store.reflections()).toEqual(everything.reflections);
    expect(await store.procedures()).toEqual(everything.procedures);
    await store.close();
  });
});
