export * from './types';
export * from './step-time';
export * from './counted';
export * from './step-table';
export * from './eye-columns';
export * from './adjust-for-eye';
export * from './audit-of';
export * from './merged-steps';
export { auditThresholds } from './thresholds';
