export * from './types';
export * from './fits';
export * from './step-safety';
export * from './suggestion';
export * from './certain-eyes';
export { rulesThresholds } from './thresholds';
export * from './plan-draft';
export * from './step-facts';
