import { readAudit, readTogether, type AuditReading, type PartInput, type Together } from '../lib/intake';
import type { Procedure } from '../lib/model';
import type { Options } from './options';
import type { Part } from './parts';
import { whole, type FileProblem } from './problem';

/** What one line of the answer is made of. */
export type Reading = Pick<AuditReading, 'cases' | 'lists' | 'references' | 'procedureId' | 'questions' | 'counted'> & {
  problems: FileProblem[];
  /** Each file or sheet by itself, as it was read. */
  parts: { name: string; reading: AuditReading }[];
  /** Sheets of the workbook that were not read, with their rows. */
  others: { name: string; rows: number }[];
};

type Read = Reading | { problem: FileProblem };

/** One file; of a workbook the sheet from which most rows are taken. */
export function readOne(
  parts: readonly Part[],
  facts: Uint8Array | null,
  procedures: readonly Procedure[],
  options: Options,
): Read {
  const first = parts.map((part) => ({
    part,
    reading: readAudit(inputOf(part, facts, procedures, choicesOf(options))),
  }));
  // A list sheet holds no time: such a sheet is what to read only where no other holds any.
  const weight = ({ reading: { layout, rowsTaken } }: (typeof first)[number]) =>
    layout === 'sheet' || layout === null ? 0 : rowsTaken;
  const best = first.reduce((one, other) => (weight(other) > weight(one) ? other : one));
  const roles = rolesOf([best.reading], options);
  if ('problem' in roles) return roles;
  const reading = readAudit(inputOf(best.part, facts, procedures, { ...choicesOf(options), ...roles.choices }));
  return {
    ...reading,
    parts: [{ name: best.part.name, reading }],
    others: first.filter((one) => one !== best).map(({ part }) => ({ name: part.sheet ?? part.name, rows: part.rows })),
  };
}

/** Files and sheets as one record; sheets in which nothing can be read are left out unless they were named. */
export function readAll(parts: readonly Part[], procedures: readonly Procedure[], options: Options): Read {
  const inputs = (choices: Record<string, string>) =>
    parts.map((part): PartInput => ({ name: part.name, input: inputOf(part, null, procedures, choices) }));
  const choices = choicesOf(options);
  const first = inputs(choices).map(({ name, input }) => ({ name, reading: readAudit(input) }));
  const idle = (index: number) => {
    const { sheet } = parts[index] ?? {};
    const { cases, references } = first[index]?.reading ?? { cases: [], references: [] };
    return typeof sheet === 'string' && options.sheets.length === 0 && cases.length + references.length === 0;
  };
  const roles = rolesOf(
    first.map(({ reading }) => reading),
    options,
  );
  if ('problem' in roles) return roles;
  const together: Together = readTogether(inputs({ ...choices, ...roles.choices }).filter((_, index) => !idle(index)));
  return {
    ...together,
    others: parts.flatMap(({ name, rows }, index) => (idle(index) ? [{ name, rows }] : [])),
  };
}

const inputOf = (
  part: Part,
  facts: Uint8Array | null,
  procedures: readonly Procedure[],
  choices: Record<string, string>,
): PartInput['input'] => ({
  ...part.written,
  fileName: part.name,
  procedures,
  choices,
  ...(facts ? { facts: { bytes: facts } } : {}),
});

function choicesOf({ answers, procedure, me, references }: Options): Record<string, string> {
  return {
    ...answers,
    ...(procedure === null ? {} : { procedure: procedure.toLowerCase() }),
    // Whoever is named makes one name alone in a file a question too: it need not be the surgeon's own.
    ...(me === null ? {} : { [`surgeon:${me}`]: 'me' }),
    ...Object.fromEntries(references.map((name) => [`surgeon:${name}`, 'reference'])),
  };
}

/**
 * Who is who, where surgeons are named: the first reading tells which names there are, and a name of the command line
 * that is not among them would otherwise leave everything out without a word.
 */
function rolesOf(
  readings: readonly AuditReading[],
  { me: mine, references: given }: Options,
): { choices: Record<string, string> } | { problem: FileProblem } {
  const names = [
    ...new Set(
      readings.flatMap(({ questions }) =>
        questions.flatMap(({ id }) => (id.startsWith('surgeon:') ? [id.slice('surgeon:'.length)] : [])),
      ),
    ),
  ];
  if (names.length === 0 || (mine === null && given.length === 0)) return { choices: {} };
  const plain = (name: string) => name.trim().toLowerCase();
  const has = (name: string) => names.some((one) => plain(one) === plain(name));
  // "S2,S3" is two names, unless somebody is called so.
  const references = given.flatMap((name) => (has(name) ? [name] : name.split(','))).map(plain);
  for (const name of [...(mine === null ? [] : [mine]), ...references])
    if (!has(name))
      return {
        problem: whole('surgeon', name, `No surgeon in this file has that name; there are ${names.join(', ')}.`),
      };
  const others = [...new Set(names.map(plain))].filter((name) => !references.includes(name));
  // With one name left beside the reference, it is plain who the surgeon is.
  const me = mine !== null ? plain(mine) : others.length === 1 ? others[0] : undefined;
  if (me === undefined)
    return { problem: whole('surgeon', null, `Say with --me which of these you are: ${others.join(', ')}.`) };
  const role = (name: string) => (name === me ? 'me' : references.includes(name) ? 'reference' : 'leave');
  return {
    choices: {
      ...Object.fromEntries(names.map((name) => [`surgeon:${name}`, role(plain(name))])),
      // Given on the command line, a reference set is the caller's word that these surgeons agreed.
      agreed: 'yes',
    },
  };
}
