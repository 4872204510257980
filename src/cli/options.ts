import { parseArgs } from 'node:util';
import type { CompareWish } from '../lib/assess';
import { takeCompare } from './compare-option';

export type Options = {
  files: string[];
  me: string | null;
  references: string[];
  procedure: string | null;
  /** Answers to what a file leaves open, by the id of the question (or the key of a heading or label). */
  answers: Record<string, string>;
  facts: string | null;
  /** All files are one record. */
  together: boolean;
  /** Names of sheets of the workbooks. */
  sheets: string[];
  seed: number;
  json: boolean;
  goal: {
    step: string;
    from: string;
    window: 20 | 40;
    measure: 'time' | 'steadiness';
    chosen: boolean;
    eyes: { fact: string; level: string } | null;
  } | null;
  compare: CompareWish | null;
};

/** @throws Error with a plain sentence for anything that is no valid call. */
export function readOptions(args: readonly string[]): Options | 'help' | 'schema' {
  const { compare, rest } = takeCompare(args);
  const { values, positionals } = parseArgs({
    args: rest,
    allowPositionals: true,
    options: {
      me: { type: 'string' },
      reference: { type: 'string', multiple: true },
      procedure: { type: 'string' },
      answer: { type: 'string', multiple: true },
      facts: { type: 'string' },
      together: { type: 'boolean', default: false },
      sheet: { type: 'string', multiple: true },
      seed: { type: 'string', default: '1' },
      json: { type: 'boolean', default: false },
      goal: { type: 'string' },
      from: { type: 'string' },
      window: { type: 'string', default: '20' },
      measure: { type: 'string', default: 'time' },
      chosen: { type: 'boolean', default: false },
      eyes: { type: 'string' },
      schema: { type: 'boolean', default: false },
      help: { type: 'boolean', short: 'h', default: false },
    },
  });
  if (values.help) return 'help';
  if (values.schema) return 'schema';
  if (positionals.length === 0) throw new Error('Name at least one file.');
  const named = [...positionals, ...(values.facts === undefined ? [] : [values.facts])];
  if (named.filter((file) => file === '-').length > 1) throw new Error('- is standard input, which can be read once.');
  if (values.together && values.facts !== undefined)
    throw new Error('With --together, name the file of facts among the files; --facts goes with a file of its own.');
  if (!values.together && (values.sheet ?? []).length > 1)
    throw new Error('Several sheets are one record with --together; without it, name one --sheet.');
  if (!/^\d{1,9}$/.test(values.seed)) throw new Error(`--seed takes a whole number; "${values.seed}" is not one.`);
  if (values.window !== '20' && values.window !== '40') throw new Error('--window takes 20 or 40.');
  if (values.measure !== 'time' && values.measure !== 'steadiness')
    throw new Error('--measure takes time or steadiness.');
  if ((values.goal === undefined) !== (values.from === undefined))
    throw new Error('--goal STEP and --from CASE_ID go together.');
  if (values.eyes !== undefined && values.goal === undefined)
    throw new Error('--eyes FACT=LEVEL goes with --goal STEP.');
  return {
    files: positionals,
    me: values.me ?? null,
    references: values.reference ?? [],
    procedure: values.procedure ?? null,
    answers: answersOf(values.answer ?? []),
    facts: values.facts ?? null,
    together: values.together,
    sheets: values.sheet ?? [],
    seed: Number(values.seed),
    json: values.json,
    goal:
      values.goal !== undefined && values.from !== undefined
        ? {
            step: values.goal,
            from: values.from,
            window: values.window === '40' ? 40 : 20,
            measure: values.measure,
            chosen: values.chosen,
            eyes: values.eyes === undefined ? null : eyesOf(values.eyes),
          }
        : null,
    compare,
  };
}

function eyesOf(text: string): { fact: string; level: string } {
  const [, fact, level] = /^([^=]+)=(.+)$/.exec(text) ?? [];
  if (!fact || !level) throw new Error(`--eyes takes FACT=LEVEL; "${text}" is none.`);
  return { fact, level };
}

function answersOf(given: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    given.map((one) => {
      const at = one.lastIndexOf('=');
      if (at < 1) throw new Error(`--answer takes ID=VALUE; "${one}" is not of that form.`);
      return [one.slice(0, at), one.slice(at + 1)];
    }),
  );
}
