export * from './types';
export * from './step-safety';
export * from './suggestion';
export { rulesThresholds } from './thresholds';
