export * from './duration';
export * from './ratio';
export * from './share';
export * from './text';
export * from './fact';
export * from './aimed-label';
