import { counted } from '../format';

/** Whose cases a reference set holds: "24 cases of 3 other surgeons", never to be read as the surgeon's own. */
export function othersCases({ n, readers }: { n: number; readers: number }): string {
  return `${counted(n, 'case')} of ${readers === 1 ? 'another surgeon' : `${readers} other surgeons`}`;
}
