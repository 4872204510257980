import { counted } from '../format';

/** After the name of the step: what a goal came to, as it was read, and when. */
export const lastResultWords = (of: {
  set: string;
  cases: number;
  result: string;
  lasted: string | null;
  read: string;
}): string =>
  `, set on ${of.set}, ${counted(of.cases, 'case')}: ${of.result}.${of.lasted === null ? '' : ` ${of.lasted}`} Read on ${of.read}.`;
