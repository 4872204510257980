import { existsSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { after, leftOfAfter, ofResult } from './after';
import { cases } from './cases';
import { choose, COLUMNS_LEFT } from './choose';
import { DAYS_AND_CODES, METHOD } from './common';
import { now } from './now';
import { leftOfOverTime, overTime } from './over-time';
import { walked, type Moment } from './record';
import { wrongIn, type LeftTo, type Recount } from './recount';
import { note, plan, reflect } from './reflect';
import { leftOfReport, report } from './report';
import * as rooms from './rooms';
import { leftOfStep, step } from './step';

/** What is counted again in each room, and what is left to a test of its own. */
const tables: [
  keyof typeof rooms &
    ('now' | 'choose' | 'step' | 'cases' | 'reflect' | 'plan' | 'note' | 'after' | 'report' | 'overTime'),
  readonly Recount[],
  readonly LeftTo[],
][] = [
  ['now', now, []],
  ['choose', choose, leftOfOverTime],
  ['step', step, leftOfStep],
  ['cases', cases, []],
  ['reflect', reflect, []],
  ['plan', plan, []],
  ['note', note, []],
  ['after', [...after, ...ofResult], leftOfAfter],
  ['report', report, leftOfReport],
  ['overTime', overTime, leftOfOverTime],
];

let moments: Moment[] = [];
beforeAll(async () => {
  moments = await walked();
}, 120_000);

describe('from empty to lasted, every figure is counted again', () => {
  it.each(tables)('%s', (name, table, left) => {
    const met = new Set<string>();
    const all = [...left, ...METHOD];
    const wrong = moments.flatMap((moment) => wrongIn(rooms[name], moment, [...table, ...DAYS_AND_CODES], all, met));
    expect(wrong).toEqual([]);
    // A pattern that nothing meets would count nothing.
    expect(table.map(([pattern]) => pattern.source).filter((source) => !met.has(source))).toEqual([]);
  });

  it('what is left to other tests names one that is there', () => {
    const left = [...METHOD, ...leftOfStep, ...leftOfAfter, ...leftOfOverTime, ...COLUMNS_LEFT];
    expect(left.map(({ test }) => test).filter((test) => !existsSync(test))).toEqual([]);
  });
});
