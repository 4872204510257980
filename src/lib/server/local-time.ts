/** "15:43", where the day is plain. */
export const clockTime = (iso: string): string =>
  new Date(iso).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });

/** A moment by the clock of this computer, where the surgeon reads it: "29 November 2026, 15:43:05". */
export const localTime = (iso: string): string =>
  new Date(iso)
    .toLocaleString('en-GB', {
      day: 'numeric',
      month: 'long',
      year: 'numeric',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
      hourCycle: 'h23',
    })
    .replace(' at ', ', ');
