/** The rooms by how often they are used; the second row is behind *More* on a phone. */
export const ROOMS = [
  { href: '/', label: 'Now' },
  { href: '/cases', label: 'Cases' },
  { href: '/choose', label: 'Choose' },
  { href: '/after-twenty', label: 'After twenty' },
] as const;

export const MORE = [
  { href: '/before-a-list', label: 'Before a list', words: 'The note to read before you operate.' },
  { href: '/reflect', label: 'Reflect', words: 'What you saw, and what you will try.' },
  { href: '/checkpoints', label: 'Checkpoints', words: 'What good looks like, step by step.' },
  { href: '/report', label: 'Report', words: 'One page for a mentor or an appraisal.' },
  { href: '/settings', label: 'Settings', words: 'Procedures, data, how each number is made.' },
] as const;

/** Rooms that hold advice for the operation: there the standing caution is said in full. */
const ADVICE = ['/choose', '/plan', '/before-a-list', '/after-twenty', '/checkpoints', '/report'];

const within = (path: string, room: string): boolean =>
  room === '/' ? path === '/' : path === room || path.startsWith(`${room}/`);

/** Rooms without an entry of their own belong to the room they are reached from. */
const PART_OF: Record<string, string> = { '/plan': '/choose', '/method': '/settings' };

export function isHere(path: string, room: string): boolean {
  const [part] = Object.keys(PART_OF).filter((each) => within(path, each));
  return within(part ? (PART_OF[part] ?? path) : path, room);
}

export const hasAdvice = (path: string): boolean => path === '/' || ADVICE.some((room) => within(path, room));

/** The note and the report put the standing caution on paper themselves; the list sheet is nothing but its rows. */
export const standsAlone = (path: string): boolean => ['/before-a-list', '/report', '/cases/list-sheet'].includes(path);
