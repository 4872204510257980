export * from './types';
export * from './fits';
export * from './step-safety';
export * from './suggestion';
export { rulesThresholds } from './thresholds';
export * from './plan-draft';
export * from './step-facts';
