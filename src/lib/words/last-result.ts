import { counted } from '../format';

/** After the name of the step: what a goal came to, as it was read, and when. `lasted`: of the following twenty read last. */
export const lastResultWords = (of: {
  set: string;
  cases: number;
  result: string;
  lasted: { nth: number; said: string } | null;
  read: string;
}): string =>
  `, set on ${of.set}, ${counted(of.cases, 'case')}: ${of.result}.${of.lasted === null ? '' : ` In the ${NTH[of.lasted.nth] ?? 'latest '}following twenty: ${of.lasted.said}.`} Read on ${of.read}.`;

/** The first is the one there is, for most goals. */
const NTH: Record<number, string> = { 1: '', 2: 'second ', 3: 'third ', 4: 'fourth ' };
