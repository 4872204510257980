/**
 * Gives an error in the browser a number, and tells the program on this computer, which keeps it in a local log. The message of
 * the error stays here: it may quote what is on the page.
 * @param where the route as it stands in the program
 * @returns the number
 */
export function tellFault(why: unknown, where: string): string {
  const id = [...crypto.getRandomValues(new Uint8Array(4))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  const body = new FormData();
  const { name, stack } = Object(why) as { name?: unknown; stack?: unknown };
  // Of a stack, what comes after the message.
  const frames = String(stack ?? '')
    .split('\n')
    .filter((line) => /:\d+:\d+\)?$/.test(line));
  for (const [field, value] of Object.entries({ id, where, what: String(name ?? ''), stack: frames.join('\n') }))
    body.set(field, value);
  void fetch('/settings/faults?/told', { method: 'POST', body, keepalive: true }).catch(() => {});
  return id;
}
