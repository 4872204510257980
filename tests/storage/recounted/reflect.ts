import type { Counts } from './by-hand';
import type { Recount } from './recount';

const answersIn = ({ reflections }: Counts, codes: string, code: (id: string) => string) => {
  const note = reflections.find(({ caseIds }) => caseIds.map(code).join(', ') === codes);
  const said = (answer: string) => (note?.answers ?? []).filter((each) => each.answer === answer).length;
  return [said('done'), said('partly'), said('not'), said('did-not-arise')];
};

export const reflect: readonly Recount[] = [
  [/^(\d+) cases wait for review\.$/, (_, { waiting }) => [waiting.length]],
  [
    /^Cases ([K\d, ]+)\. Checkpoints: (\d+) done, (\d+) partly, (\d+) not done, (\d+) does not apply\./,
    ([codes], by) => [codes!, ...answersIn(by, codes!, (id) => by.cases.find((one) => one.id === id)!.code)],
  ],
];

export const plan: readonly Recount[] = [
  [
    /(\d+) cases, first (K\d+), latest (K\d+), fixed on/,
    (_, { baseline }) => [baseline.length, baseline[0]!.code, baseline.at(-1)!.code],
  ],
];

/** The note before a list holds no figure at all. */
export const note: readonly Recount[] = [];
