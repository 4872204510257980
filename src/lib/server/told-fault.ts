import { framesOf, type Fault } from './faults';

/** What a browser told of an error: nothing of it is taken over that does not have the form of what we keep. */
export function toldFault(told: { id: string; where: string; what: string; stack: string }, at: string): Fault | null {
  if (!/^[0-9a-f]{8}$/.test(told.id)) return null;
  return {
    at,
    id: told.id,
    where: /^\/[a-z0-9/[\].-]{0,80}$/.test(told.where) ? `${told.where} (browser)` : '(browser)',
    what: /^[A-Za-z]{1,40}$/.test(told.what) ? told.what : 'Error',
    frames: framesOf(told.stack.slice(0, 4000)),
  };
}
