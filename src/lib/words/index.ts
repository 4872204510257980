export * from './others-cases';
export * from './certainty';
export * from './result';
export * from './events';
export * from './suggestion';
export * from './note-durations';
export * from './person-in-text';
