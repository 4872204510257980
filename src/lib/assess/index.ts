export { readAudit } from '../intake';
export { startGoal, resultFor } from '../practice';
export { assess, type AssessInput, type Assessed, type GoalWish } from './assess';
export type { CompareJson, CompareWish } from './compare';
export type { Assessment, EffectJson, ResultJson } from './assessment';
export { assessmentText } from './assessment-text';
