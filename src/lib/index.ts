/**
 * Next Twenty as a library: the same functions the screens and the command line use. Pure and deterministic for one
 * input and seed; no clock, no files, no network. Times in seconds, effects as ratios of window to start (the stored
 * `Effect` is their logarithm), shares 0..1. What cannot be said is a returned case with its reason, never an
 * exception and never NaN: too little data, and a number of the caller's that is none (code `not-a-number`, by name).
 *
 * @example
 * ```ts
 * import { readAudit, assess, assessmentText } from 'next-twenty';
 *
 * const reading = readAudit({ text: csv, fileName: 'times.csv', procedures });
 * if (reading.ready) {
 *   const answer = assess({ reading, procedures, guidance, seed: 1 });
 *   if (answer.kind === 'assessed') console.log(assessmentText(answer));
 * }
 * ```
 *
 * - `readAudit(input)`: text or bytes → cases, lists, references, problems (row, column, value, why), questions to be
 *   answered once a file. Rows in = rows taken + rows named.
 * - `assess(input)`: a reading → the JSON `next-twenty/assessment/2` (type `Assessment`), with a goal's result on wish.
 * - `startGoal(input)`: a record and a step → baseline cases fixed by id, the allowance for having picked it, the
 *   expected range, what twenty and forty cases can show; or why no goal can start.
 * - `resultFor(input)`: baseline cases and a full window → the outcome: its kind, and the effect against the rest of
 *   the operation, of the step alone, and of the rest, each with a 95 % interval on the log scale.
 * - `cannotStartWords`, `cannotSayWords`, `pauseWords`, `resultCaveatWords`: the reasons in these, which are codes with
 *   numbers, as sentences.
 *
 * Sources: robust regression, Huber (1964), Annals of Mathematical Statistics 35:73–101; design effect of lists,
 * Kish, Survey Sampling (1965); exact intervals, Clopper & Pearson (1934), Biometrika 26:404–413; false discovery rate,
 * Benjamini & Hochberg (1995), JRSS B 57:289–300; run charts, Anhøj & Olesen (2014), PLoS ONE 9:e113825. How they are
 * put together, and the error rates of that, stand in content/method.
 */
export { readAudit, type AuditReading, type Question } from './intake';
export { assess, type AssessInput, type Assessed, type GoalWish, type Assessment, assessmentText } from './assess';
export { startGoal, resultFor, type StartGoalInput, type StartedGoal, type ResultInput } from './practice';
export { cannotSayWords, cannotStartWords, pauseWords, resultCaveatWords } from './words';
export type { Case, Effect, ListRecord, Outcome, Problem, Procedure, ReferenceSet, Baseline } from './model';
