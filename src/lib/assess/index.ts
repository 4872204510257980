export { readAudit } from '../intake';
export { startGoal, resultFor } from '../practice';
export { assess, type AssessInput, type Assessed } from './assess';
export type { GoalWish } from './goal-result';
export type { CompareWish } from './compare';
export type { CompareJson } from './compare-json';
export type { EffectJson, ResultJson } from './result-json';
export { lineSchema, type Assessment, type Problems } from './assessment';
export { assessmentText } from './assessment-text';
