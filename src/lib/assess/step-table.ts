import type { Audit } from '../audit';
import { clock, timesAsLong } from '../format';
import { differenceCannotWords, firstWords } from '../words';
import { REFERENCE_LEAD } from '../words/assessment';

/** The steps as a table for a terminal: a row a step that was timed, in operation order. */
export function stepTable(audit: Audit): string[] {
  const width = Math.max(...audit.steps.map((step) => step.label.length));
  // Steps are ranked by what is left among the same kind of eye; the interval is of that.
  const apart = audit.steps.some(({ differenceSameEyes }) => differenceSameEyes !== null);
  const compared = audit.steps.some(({ reference }) => reference !== null);
  const timed = audit.steps.filter((step) => step.n > 0 && step.median !== null);
  const rows = timed.map((step) => {
    const { reference, difference, differenceInterval, differenceSameEyes, differenceCannot } = step;
    const said = reference && timesAsLong(reference);
    return [
      `  ${step.label.padEnd(width)}`,
      String(step.n).padStart(6),
      clock(step.median ?? 0).padStart(7),
      (step.p20 === null ? '' : clock(step.p20)).padStart(7),
      ...(compared ? [(said ? `${said.ratio} (${said.low} to ${said.high})` : '').padStart(REFERENCE)] : []),
      ...(difference !== null && differenceInterval
        ? [
            `${Math.round(difference)} s`.padStart(7),
            ...(apart ? [`${Math.round(differenceSameEyes ?? difference)} s`.padStart(11)] : []),
            `${Math.round(differenceInterval.low)} to ${Math.round(differenceInterval.high)}`.padStart(10),
            `  ${audit.enough.enough ? firstWords(step.first.seconds) : ''}`,
          ]
        : [`  ${differenceCannot ? differenceCannotWords(differenceCannot) : ''}`]),
    ].join('');
  });
  const head = [
    `  ${''.padEnd(width)}${'cases'.padStart(6)}${'median'.padStart(7)}${'p20'.padStart(7)}`,
    ...(compared ? ['reference'.padStart(REFERENCE)] : []),
    `${'diff.'.padStart(7)}${apart ? 'same eyes'.padStart(11) : ''}${'95 %'.padStart(10)}  most seconds`,
  ].join('');
  return [head, ...rows, ...(compared ? ['', REFERENCE_LEAD] : [])];
}

const REFERENCE = 22;
