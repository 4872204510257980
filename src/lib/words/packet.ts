import { counted } from '../format';

/** Said to whoever gives a packet and to whoever gets one. */
export const packetWarning =
  'A set from one surgeon is not anonymous in a small unit: whoever knows who was asked, or how somebody operates, may recognise whose it is. Give it to a person, not to a shared folder, and only as your unit’s rules allow. It is not for judging or ranking anyone.';

/** What is never in a packet. */
export const packetNever =
  'Never in it: names, dates, codes, the order of the cases in time, places in a list, hands, events, waiting, notes, recordings.';

/** Why a text is no packet that can be taken, and what to do. */
export function noPacketWords(
  no:
    | { because: 'empty' | 'too-long' | 'no-json' | 'other-format' }
    | { because: 'field'; where: string; why: string }
    | { because: 'procedure'; name: string }
    | { because: 'few'; cases: number },
): string {
  switch (no.because) {
    case 'empty':
      return 'Choose the packet that your colleague gave you: a file that ends in .json.';
    case 'too-long':
      return 'This file is larger than any packet (8 million letters). Choose the packet itself.';
    case 'no-json':
      return 'This file is not a packet, or was cut off on its way: it is not JSON. Ask for it again. A table of times is brought in under Cases.';
    case 'other-format':
      return 'This file is not a packet of a reference set: it does not say so in its field “format”. A full backup is brought back under “Bring everything back”; a table of times, under Cases.';
    case 'field':
      return `This packet was changed or damaged: its field ${no.where} does not hold what it should (${no.why}). Nothing was taken. Ask for it again.`;
    case 'procedure':
      return `This packet is of ${no.name}, which is not among your procedures. Add the procedure in Settings, or ask for a packet of one of yours.`;
    case 'few':
      return `This packet has ${counted(no.cases, 'case')} that can be used; a reference set needs at least 10. Nothing was taken.`;
    default:
      return no satisfies never;
  }
}

/** Why no packet can be made yet. */
export const fewForPacket = (cases: number): string =>
  `A packet needs at least 10 of your own cases with step times, and there ${cases === 1 ? 'is 1' : `are ${cases === 0 ? 'none' : cases}`}. Invented cases are not given away.`;

/** @param lists cases of how many lists keep together */
export function packetCases({
  cases,
  lists,
  onNoList,
  procedure,
}: {
  cases: number;
  lists: number;
  onNoList: number;
  procedure: string;
}): string {
  const on =
    lists === 0
      ? 'Their lists are not known.'
      : `Those of one list keep together, by a number from 1 to ${lists}${onNoList > 0 ? `; of ${onNoList} the list is not known` : ''}.`;
  return `${procedure}: ${counted(cases, 'case')} of one surgeon. ${on} Step times to a tenth of a second, without protected parts and the waiting inside them.`;
}

export const packetSet = (label: string): string => `These cases are in the record already, as “${label}”.`;

/** Below ten cases a set is kept and not used. */
export const setNotUsedYet = (cases: number): string =>
  cases >= 10 ? '' : ` Not used yet: a reference set needs at least 10 cases (${10 - cases} more).`;
