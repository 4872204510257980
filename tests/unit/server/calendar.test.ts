import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { calendarFile } from '../../../src/lib/server/calendar';

const file = calendarFile(
  [
    {
      id: 'goal-1-window',
      day: '2026-12-31',
      title: 'The twenty should be full',
      text: 'Read the result; all cases, reviewed. '.repeat(4),
    },
  ],
  '2026-11-25T08:00:00.000Z',
);

describe('reminders for a calendar', () => {
  // RFC 5545, section 3.1: lines end in CRLF and are folded at 75 octets; 3.6: what a calendar and an event must have.
  it('keeps to RFC 5545 in line ends, folding and required properties', () => {
    expect(file.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of file.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    const unfolded = file.replaceAll('\r\n ', '');
    for (const needed of [
      /^BEGIN:VCALENDAR\r\n/,
      /\r\nVERSION:2\.0\r\n/,
      /\r\nPRODID:/,
      /\r\nUID:goal-1-window@/,
      /\r\nDTSTAMP:20261125T080000Z\r\n/,
      /\r\nEND:VCALENDAR\r\n$/,
    ])
      expect(unfolded).toMatch(needed);
    // 3.3.11: commas and semicolons in text are escaped.
    expect(unfolded).toContain('Read the result\\; all cases\\, reviewed.');
  });
  it('is a whole day, over the end of a year', () => {
    const event = new ICAL.Component(ICAL.parse(file)).getFirstSubcomponent('vevent');
    expect(event?.getFirstPropertyValue('dtstart')?.toString()).toBe('2026-12-31');
    expect(event?.getFirstPropertyValue('dtend')?.toString()).toBe('2027-01-01');
  });
});
