export * from './types';
export * from './step-time';
export * from './counted';
export * from './step-table';
export * from './eye-columns';
