export { readAudit } from '../intake';
export { startGoal, resultFor } from '../practice';
export { assess, type AssessInput, type Assessed } from './assess';
export type { GoalWish } from './goal-result';
export type { CompareJson, CompareWish } from './compare';
export type { Assessment, EffectJson, ResultJson } from './assessment';
export { assessmentText } from './assessment-text';
