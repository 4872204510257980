import { countedCases } from '../../audit';
import { clock, inSentence } from '../../format';
import type { Procedure, SurgeonRecord } from '../../model';
import { lookingBack, type LookingBack } from '../../practice';
import { cannotCompareWords, eyeCaveatWords, heldBackWords } from '../../words';
import { lookingBackRows, lookingBackWords } from '../../words/looking-back';
import type { EffectRow } from '../../words/reported-result';
import type { FieldError } from '../forms/fields';
import { hiddenCaseIds } from '../goals/hidden-times';
import { between, type Between } from './between';
import { goalOfSplit } from './goal-of-split';
import { splitChoices, splitOf, type AskedSplit, type SplitChoices } from './split';
import { stretchNames } from './stretch-name';

export type OverTimeView = {
  head: string;
  lede: readonly string[];
  /** `null`: nothing could be compared. */
  answer: {
    title: string;
    reading: string;
    key: string;
    rows: readonly EffectRow[];
    table: {
      columns: { label: string; number?: boolean; method?: 'two-stretches' | 'median' }[];
      rows: string[][];
    };
    notCompared: readonly string[];
  } | null;
  names: { earlier: string; later: string } | null;
  between: readonly Between[];
  betweenReading: string;
  doesNotSay: readonly string[];
  made: readonly string[];
  /** The goal whose baseline cases and window these are: it has its own result. */
  goal: { href: string; label: string } | null;
  errors: readonly FieldError[];
  asked: AskedSplit;
  choices: SplitChoices;
};

const BETWEEN =
  'What else may have been different, in counts. A fact of the eye is counted among the cases in which it was entered.';

/** Two stretches of the record as the screen compares them; everything from the record and the address. */
export function overTimeView(record: SurgeonRecord, procedure: Procedure, asked: AskedSplit): OverTimeView {
  const hidden = hiddenCaseIds(record);
  const counting = countedCases(record.cases, procedure);
  const cases = counting.filter(({ id }) => !hidden.has(id));
  const heldBack = counting.length - cases.length;
  const split = splitOf(asked, cases, record.lists);
  const nothing = {
    answer: null,
    names: null,
    between: [],
    betweenReading: BETWEEN,
    doesNotSay: [],
    made: heldBack > 0 ? [heldBackWords(heldBack, 'a running window')] : [],
    goal: null,
    errors: [],
    asked,
    choices: splitChoices(cases, record.lists),
  };
  if (split.kind === 'cannot')
    return {
      ...nothing,
      head: 'Which two stretches?',
      lede: [split.because],
      errors: cases.length > 0 ? [{ field: split.field, message: split.because }] : [],
    };
  const goal = goalOfSplit(record, procedure, split.earlier, split.later);
  if (goal) {
    const label = procedure.steps.find(({ id }) => id === goal.stepId)?.label ?? goal.stepId;
    return {
      ...nothing,
      head: 'These are the baseline cases and the window of a goal.',
      lede: [
        `The goal on ${inSentence(label)} has one result, read when its window is full. Looked at again here, the same cases would give a second one.`,
      ],
      goal: { href: `/after-twenty/${goal.id}`, label: 'After twenty: what came of it' },
    };
  }
  const names = stretchNames(split.earlier, split.later, record.lists);
  const said = lookingBack({
    cases,
    lists: record.lists,
    procedure,
    earlier: split.earlier.map(({ id }) => id),
    later: split.later.map(({ id }) => id),
    fixed: split.fixed,
  });
  const words = lookingBackWords(said, names);
  return {
    ...nothing,
    head: words.head,
    lede: words.sentences,
    answer: said.kind === 'compared' ? answerOf(said, names) : null,
    names,
    between: between(procedure, record.lists, said.earlier.cases, said.later.cases),
    doesNotSay: words.doesNotSay,
    made: [
      ...(split.fixed
        ? [
            'This split lies in the record itself, whatever its times: halves, calendar years, or a change noted with a list.',
          ]
        : [
            'This split was chosen freely. Whoever tries many dates finds one that fits, so it is judged ten times as strictly.',
          ]),
      ...nothing.made,
      ...(said.kind === 'compared' ? said.caveats.map(eyeCaveatWords) : []),
    ],
  };
}

function answerOf(
  said: Extract<LookingBack, { kind: 'compared' }>,
  names: { earlier: string; later: string },
): OverTimeView['answer'] {
  const rows = lookingBackRows(said);
  if (rows.length === 0) return null;
  const time = (seconds: number | null) => (seconds === null ? '' : clock(seconds));
  const row = (id: string) => rows.find((each) => each.id === id)?.words;
  return {
    title: 'Each step, the later stretch against the earlier',
    reading: `100 = as ${names.earlier}, beside the other steps of the same operations; the last row is all of them together.${said.adjusted ? ' Adjusted for the eye; medians as recorded.' : ''}`,
    key: '● estimate · line: 95 % interval, each row for itself · arrow: beyond the axis',
    rows,
    table: {
      columns: [
        { label: 'Step' },
        { label: `Median ${names.earlier}`, number: true, method: 'median' },
        { label: `Median ${names.later}`, number: true, method: 'median' },
        { label: 'Cases', number: true },
        { label: 'Against the rest', method: 'two-stretches' },
      ],
      rows: [
        ...said.steps.map(({ stepId, label, earlier, later, compared }) => [
          label,
          time(earlier.median),
          time(later.median),
          `${earlier.n}, ${later.n}`,
          compared.kind === 'cannot' ? cannotCompareWords(compared.why) : (row(stepId) ?? ''),
        ]),
        [
          'All steps together',
          '',
          '',
          `${said.earlier.cases.length}, ${said.later.cases.length}`,
          said.whole.kind === 'cannot' ? cannotCompareWords(said.whole.why) : (row('whole') ?? ''),
        ],
      ],
    },
    notCompared: said.steps.flatMap(({ label, compared }) =>
      compared.kind === 'cannot' ? [`${label}: ${cannotCompareWords(compared.why)}`] : [],
    ),
  };
}
