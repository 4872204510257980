import ICAL from 'ical.js';

// The library counts a folded line without its leading blank; RFC 5545 counts it.
ICAL.foldLength = 74;

/** A day-long reminder. `day` is an ISO date; `id` makes the UID, so that a newer file replaces the older entry. */
export type Reminder = { id: string; day: string; title: string; text: string };

/**
 * Reminders as an iCalendar file (RFC 5545), for any calendar to take in; nothing is sent anywhere.
 * Titles and texts hold no times, codes or results: calendars are often shared.
 * @param stamp ISO instant of this request
 */
export function calendarFile(reminders: readonly Reminder[], stamp: string): string {
  const calendar = new ICAL.Component(['vcalendar', [], []]);
  calendar.updatePropertyWithValue('version', '2.0');
  calendar.updatePropertyWithValue('prodid', '-//Next Twenty//EN');
  for (const reminder of reminders) {
    const entry = new ICAL.Component('vevent');
    const start = ICAL.Time.fromDateString(reminder.day);
    const end = start.clone();
    end.adjust(1, 0, 0, 0);
    entry.updatePropertyWithValue('uid', `${reminder.id}@next-twenty.invalid`);
    entry.updatePropertyWithValue('dtstamp', ICAL.Time.fromJSDate(new Date(stamp), true));
    entry.updatePropertyWithValue('dtstart', start);
    entry.updatePropertyWithValue('dtend', end);
    entry.updatePropertyWithValue('summary', reminder.title);
    entry.updatePropertyWithValue('description', reminder.text);
    entry.updatePropertyWithValue('transp', 'TRANSPARENT');
    calendar.addSubcomponent(entry);
  }
  return `${calendar.toString()}\r\n`;
}
