import { auditOf, auditThresholds, knownLists, type Audit } from '../audit';
import type { AuditReading } from '../intake';
import { emptyProfile, type Problem, type Procedure } from '../model';
import { notANumber, recordNotANumber } from '../practice';
import type { Guidance, Suggestion } from '../rules/types';
import { auditCaveatWords, notANumberWords, suggestionReasons } from '../words';
import { NOTHING_TO_ASSESS, smallReferenceWords } from '../words/assessment';
import { safetyWords, type SafetyWords } from '../words/safety';
import type { Assessment, EyesJson } from './assessment';
import { comparisonOf, type CompareWish, type Comparison } from './compare';
import { eventsJson } from './events-json';
import { recordFromReading, type ReadRecord } from './from-reading';
import { goalResult, type GoalResult, type GoalWish } from './goal-result';
import { guidanceFor } from './guidance-for';
import { stepJson } from './step-json';
import { suggestionFor } from './suggest';

export type AssessInput = {
  reading: Pick<AuditReading, 'cases' | 'lists' | 'references' | 'procedureId'> &
    Partial<Pick<AuditReading, 'questions'>> & {
      /** `file`: where a row stands, of a record that came from several. */
      problems: readonly (Problem & { file?: string })[];
    };
  /** As the caller names it, for the answer. */
  file?: string;
  procedures: readonly Procedure[];
  guidance: readonly Guidance[];
  seed?: number;
  resamples?: number;
  goal?: GoalWish;
  compare?: CompareWish;
};

/** The answer with the audit behind it, or why nothing can be assessed. */
export type Assessed =
  | {
      kind: 'assessed';
      assessment: Assessment;
      audit: Audit;
      suggestion: Suggestion;
      goal: GoalResult | null;
      compare: Comparison | null;
      /** Events of all these cases, with denominators. */
      safety: SafetyWords;
      /** What should be known before reading anything into the numbers. */
      said: readonly string[];
    }
  | { kind: 'cannot'; because: string; problems: (Problem & { file?: string })[] };

/**
 * The main job without a screen: from what a file holds to where to look, how sure, and, with a goal, what came of it.
 * Deterministic for one reading and seed. Times in seconds, ratios of window to start. Never throws on what a file
 * holds: too little is an answer (`suggestion.kind`), nothing at all is `cannot`.
 */
export function assess(input: AssessInput): Assessed {
  const { reading, seed = 1, file = null } = input;
  const problems = [...reading.problems];
  const procedure = input.procedures.find((each) => each.id === reading.procedureId);
  const record = procedure && recordFromReading(reading, procedure);
  if (!procedure || !record || record.cases.length === 0)
    return { kind: 'cannot', because: NOTHING_TO_ASSESS, problems };
  const wrong =
    recordNotANumber(record) ?? notANumber({ seed, resamples: input.resamples, 'window-length': input.goal?.window });
  if (wrong) return { kind: 'cannot', because: notANumberWords(wrong.why), problems };
  const audit = auditOf({ ...record, procedure, seed, resamples: input.resamples });
  const suggestion = suggestionFor(audit, { ...record, profile: emptyProfile });
  const goal = input.goal ? goalResult(input.goal, record, procedure, seed, input.resamples) : null;
  // A result rests on which case came first: where that was guessed, the answer itself says so.
  if (goal?.kind === 'result' && orderGuessed(reading.questions)) goal.json.notes.push('order-guessed');
  const compare = input.compare ? comparisonOf(input.compare, record, procedure) : null;
  const assessment: Assessment = {
    format: 'next-twenty/assessment/2',
    file,
    procedure: procedure.id,
    cases: record.cases.length,
    lists: knownLists(record.cases) || null,
    seed,
    left_out: problems.map(({ file: in_, row, column, value, why }) => ({
      file: in_ ?? file,
      row,
      column,
      value,
      why,
    })),
    events: eventsJson(record.cases, record.lists),
    steps: audit.steps.map((step) => stepJson(step, record, audit.waiting.n > 0)),
    patterns: audit.patterns
      .filter(({ shown }) => shown)
      .map((one) => ({
        step: one.stepId,
        label: one.label,
        n_with: one.nWith,
        n_without: one.nWithout,
        ratio: one.ratio,
        low: one.low,
        high: one.high,
      })),
    suggestion: {
      kind: suggestion.kind,
      steps: [...suggestion.steps],
      view: suggestion.view,
      because: suggestionReasons(audit, suggestion),
      eyes: suggestion.eyes ? eyesJson(suggestion.eyes) : null,
    },
    guidance: guidanceFor(audit, suggestion, record, input.guidance),
    ...(goal ? { result: goal.kind === 'none' ? null : goal.json } : {}),
    ...(compare ? { compare: compare.json } : {}),
  };
  return {
    kind: 'assessed',
    assessment,
    audit,
    suggestion,
    goal,
    compare,
    safety: safetyWords(record.cases, record.cases, record.lists, 'the operation is'),
    said: [...audit.caveats.map(auditCaveatWords), ...smallReference(audit, record)],
  };
}

const orderGuessed = (questions: AuditReading['questions'] = []) =>
  questions.some(({ id, answered }) => id === 'order' && !answered);

/** That a reference set was given and is too small to compare any step with. */
function smallReference({ steps }: Audit, { references }: ReadRecord): string[] {
  const cases = references.reduce((sum, set) => sum + set.cases.length, 0);
  if (cases === 0 || steps.some(({ reference }) => reference !== null)) return [];
  const { referenceCases, referenceLists } = auditThresholds;
  return [smallReferenceWords(cases, { cases: referenceCases, lists: referenceLists })];
}

function eyesJson({ stepId, label, withIt, without, because }: NonNullable<Suggestion['eyes']>): EyesJson {
  const group = ({ n, lists, median, p20 }: typeof withIt) => ({ n, lists, median_s: median, p20_s: p20 });
  return { step: stepId, label, with: group(withIt), without: group(without), because: [...because] };
}
