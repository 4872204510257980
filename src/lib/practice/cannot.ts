import type { CannotSay } from '../model';

/** Too little data, with the reason: a returned case, never an exception. */
export type Cannot = { kind: 'cannot' } & CannotSay;

export const cannot = (code: string, because: string): Cannot => ({ kind: 'cannot', code, because });
