import { ROWS_LEFT, rowsLeft, type AuditReading, type Mapping, type Question } from '../../intake';
import type { Problem, Procedure, SurgeonRecord } from '../../model';
import { capital, counted, listed } from '../../format';
import { importPlan, keepsNew, whoseIsOpen, type ImportPlan } from './import-plan';
import { accountWords, landsWords, reviewedWords, takeWords } from './import-words';
import { problemLines, type ProblemList } from './problem-lines';
import { rememberedHere, type Remembered } from './remembered-answers';
import { rowsView, type RowKind, type RowsView } from './rows-view';

type Choice = { value: string; label: string };
type Choices = Readonly<Record<string, string>>;

export type BringInView = {
  /** What was understood, in one sentence. */
  sentence: string;
  /** Chapter marks hold no code, so one is asked. */
  chapters: boolean;
  /** What stays out, or is already here. */
  notes: readonly string[];
  questions: readonly Question[];
  /** Answers that came from the last file with the same headings. */
  remembered: readonly Remembered[];
  columns: readonly Mapping[];
  /** The rows of the file as a table; `null` where it could not be read as one, or nobody asked for them. */
  rows: RowsView | null;
  labels: readonly Mapping[];
  /** What words and grades about the eye became. */
  values: readonly Mapping[];
  columnOptions: readonly Choice[];
  labelOptions: readonly Choice[];
  refused: ProblemList;
  queried: ProblemList;
  known: {
    same: number;
    changed: readonly {
      caseId: string;
      code: string;
      row: number;
      /** Which values are taken where old and new differ; `null` where no stored value would change. */
      takeNew: boolean | null;
      differences: readonly string[];
    }[];
    more: number;
  };
  /** Codes given in place of identifying ones, to be written down now. */
  given: readonly { row: number; code: string }[];
  givenMore: number;
  /** `open`: it must be said first. `null`: it is not asked. */
  whose: 'me' | 'reference' | 'open' | null;
  reference: { cases: number; readers: number; label: string } | null;
  /** The words of the button; `null` where nothing can be taken, and why. */
  take: string | null;
  whyNot: string | null;
};

const LISTED = 300;
const MAPPINGS = 120;
const DIFFERENCES = 14;

/**
 * @param odd what is asked about beside what the reading itself asks: times far from the surgeon's own, say
 * @param wish which rows of the file the page shows
 */
export function bringInView(
  reading: AuditReading,
  choices: Choices,
  record: Pick<SurgeonRecord, 'procedures' | 'references' | 'lists'>,
  odd: readonly Problem[] = [],
  wish: { kind: RowKind; page: number } = { kind: 'all', page: 1 },
): BringInView {
  const plan = importPlan(reading, choices, record);
  const rows = rowsView(reading, odd, rowsLeft(choices[ROWS_LEFT] ?? ''), wish);
  const refused = reading.problems.filter(({ weight }) => weight === 'refused');
  const queried = reading.problems.filter(({ weight }) => weight === 'queried');
  const changed = reading.known.filter(({ same, closed }) => !same && !closed);
  const asked = reading.questions.some(({ id, answer }) => id === 'codes' && answer === 'new');
  const given = asked ? reading.cases.map(({ row, code }) => ({ row, code })) : [];
  return {
    sentence: understood(reading, record.procedures, plan),
    chapters: reading.layout === 'chapters',
    notes: [
      ...accountWords(reading, plan),
      ...landsWords(plan, record.lists),
      ...reviewedWords(plan),
      ...notesOf(reading, plan, choices),
    ],
    questions: reading.questions,
    remembered: rememberedHere(choices, reading),
    columns: reading.mapping
      .filter(({ kind, key }) => kind === 'column' && !rows?.columns.some((column) => column.key === key))
      .slice(0, MAPPINGS),
    rows,
    labels: reading.mapping.filter(({ kind }) => kind === 'label').slice(0, MAPPINGS),
    values: reading.mapping.filter(({ kind }) => kind === 'value').slice(0, MAPPINGS),
    columnOptions: reading.columnOptions,
    labelOptions: reading.labelOptions,
    refused: problemLines(refused, reading.counted.refused),
    queried: problemLines([...queried, ...odd], reading.counted.queried + odd.length),
    known: {
      same: reading.known.filter(({ same }) => same).length,
      changed: changed.slice(0, LISTED).map((one) => ({
        caseId: one.caseId,
        code: one.code,
        row: one.row,
        takeNew: one.conflicts ? keepsNew(choices, one) : null,
        differences: differenceWords(one.differences),
      })),
      more: Math.max(0, changed.length - LISTED),
    },
    given: given.slice(0, LISTED),
    givenMore: Math.max(0, given.length - LISTED),
    // Asked only where no column tells who operated: the file is all mine, or all of others.
    whose:
      reading.cases.length === 0 ||
      reading.layout === 'sheet' ||
      reading.questions.some(({ id }) => id.startsWith('surgeon:'))
        ? null
        : whoseIsOpen(reading) && !choices['whose']
          ? 'open'
          : plan.whose,
    reference: plan.reference,
    ...takeWords(reading, plan, choices),
  };
}

const differenceWords = (differences: AuditReading['known'][number]['differences']): string[] => [
  ...differences.slice(0, DIFFERENCES).map(({ what, before, after }) => `${what}: ${before} → ${after}`),
  ...(differences.length > DIFFERENCES ? [`and ${differences.length - DIFFERENCES} more`] : []),
];

const LAYOUT = {
  stretches: 'one row a stretch',
  cases: 'one row a case',
  sheet: 'a list sheet, one row a case and no times',
  chapters: 'the chapters of one recording',
} as const;

function understood(reading: AuditReading, procedures: readonly Procedure[], plan: ImportPlan): string {
  if (!reading.layout) return 'This could not be read as a table of times.';
  const name = procedures.find(({ id }) => id === reading.procedureId)?.name ?? 'an operation';
  const steps = new Set(
    [...reading.cases, ...reading.references.map((one) => one.case)].flatMap(({ stretches }) =>
      stretches.flatMap(({ stepId, kind }) => (kind === 'step' && stepId !== null ? [stepId] : [])),
    ),
  ).size;
  const parts = [
    ...(reading.cases.length > 0 ? [counted(reading.cases.length, 'case')] : []),
    ...(reading.references.length > 0 && plan.whose === 'me'
      ? [`${counted(reading.references.length, 'case')} of other surgeons`]
      : []),
    ...(reading.layout === 'sheet' ? [] : [counted(steps, 'step')]),
    ...(reading.lists.length > 0 ? [counted(reading.lists.length, 'list')] : ['lists not known']),
    eventsWords(reading),
  ];
  return `Read as ${LAYOUT[reading.layout]}, ${name}: ${parts.join(', ')}.`;
}

function eventsWords({ cases }: AuditReading): string {
  const answered = cases.filter(({ events }) => events !== null).length;
  if (cases.length === 0) return 'no case of your own';
  if (answered === 0) return 'events not asked in this file';
  return answered === cases.length ? 'events answered in all' : `events answered in ${answered}`;
}

const codesOf = (known: AuditReading['known']): string =>
  listed([
    ...known.slice(0, DIFFERENCES).map(({ code }) => code),
    ...(known.length > DIFFERENCES ? [`${known.length - DIFFERENCES} more`] : []),
  ]);

function notesOf(reading: AuditReading, plan: ImportPlan, choices: Choices): string[] {
  const same = reading.known.filter((one) => one.same).length;
  const closed = reading.known.filter((one) => one.closed && !one.same);
  const eventStays = reading.known.filter((one) => one.eventStays);
  const fills = reading.known.filter((one) => one.filled !== null && !one.closed).length;
  const old = reading.known.filter((one) => one.conflicts && !one.closed && !keepsNew(choices, one)).length;
  return [
    ...(same > 0
      ? [
          `${capital(counted(same, 'case'))} ${same === 1 ? 'is' : 'are'} in the record already with the same values: unchanged.`,
        ]
      : []),
    ...(fills > 0
      ? [
          `${capital(counted(fills, 'case'))} in the record ${fills === 1 ? 'gets' : 'get'} what was not entered before, or an event that is noted; every other old value stays unless you choose the new.`,
        ]
      : []),
    ...(old > 0
      ? [`${capital(counted(old, 'case'))} in the record ${old === 1 ? 'keeps its' : 'keep their'} old values.`]
      : []),
    ...(closed.length > 0
      ? [
          `Kept as ${closed.length === 1 ? 'it is' : 'they are'}, so nothing of this file goes into ${closed.length === 1 ? 'it' : 'them'}: ${codesOf(closed)}.`,
        ]
      : []),
    ...(eventStays.length > 0
      ? [
          `This file says that there was no event; the record has one, which stays: ${codesOf(eventStays)}. If it is wrong, remove it on the page of the case.`,
        ]
      : []),
    ...(plan.referenceKept
      ? ['The cases of other surgeons are a reference set of the record already: unchanged.']
      : []),
    ...(saysNoHands(reading)
      ? [
          'No column says whose hands did a step, so all are taken as yours. Where somebody else did one, say so on its list or its page before you choose a step.',
        ]
      : []),
    ...(reading.cases.length > 0 && reading.cases.every(({ orderKnown }) => !orderKnown)
      ? ['The order in time is not known, so nothing is said about change over time.']
      : []),
  ];
}

const HANDS = /^(own:(case-)?hands|step-hands:)/;

/** Times with nothing said about who did the steps. */
const saysNoHands = ({ cases, layout, mapping }: AuditReading): boolean =>
  cases.length > 0 && layout !== 'chapters' && layout !== 'sheet' && !mapping.some(({ value }) => HANDS.test(value));
