/** What a key does on the timing screen. */
export type Command =
  | 'start'
  | 'end'
  | 'return'
  | 'waiting'
  | 'seen'
  | 'event'
  | 'hands'
  | 'undo'
  | 'redo'
  | 'play'
  | 'frame-back'
  | 'frame-on'
  | 'half-back'
  | 'half-on'
  | 'change-back'
  | 'change-on'
  | 'step-before'
  | 'step-after'
  | 'keys'
  | { speed: number };

/** Slowest to fastest, on the keys 1 to 6: a quarter to eight times. */
export const SPEEDS = [0.25, 0.5, 1, 2, 4, 8] as const;

export type KeyPress = { key: string; shift?: boolean; ctrl?: boolean; alt?: boolean; meta?: boolean };

/** The table that the screen prints and the keyboard follows: they cannot differ. */
export const KEYS: readonly { keys: readonly string[]; words: string; commands: readonly Command[] }[] = [
  { keys: ['S'], words: 'step starts here, one that runs ends', commands: ['start'] },
  { keys: ['E'], words: 'step ends here', commands: ['end'] },
  { keys: ['R'], words: 'returned to the step chosen in the list', commands: ['return'] },
  { keys: ['W'], words: 'waiting starts, ends', commands: ['waiting'] },
  { keys: ['P'], words: 'protected part seen', commands: ['seen'] },
  { keys: ['V'], words: 'an event', commands: ['event'] },
  { keys: ['H'], words: 'whose hands', commands: ['hands'] },
  { keys: ['U'], words: 'undo', commands: ['undo'] },
  { keys: ['Y'], words: 'do again', commands: ['redo'] },
  { keys: ['Space'], words: 'play, pause', commands: ['play'] },
  { keys: ['←', '→'], words: 'one frame', commands: ['frame-back', 'frame-on'] },
  { keys: ['⇧ ←', '⇧ →'], words: 'half a second', commands: ['half-back', 'half-on'] },
  { keys: ['[', ']'], words: 'change of the picture', commands: ['change-back', 'change-on'] },
  { keys: ['↑', '↓'], words: 'choose a step', commands: ['step-before', 'step-after'] },
  { keys: ['1', '…', '6'], words: 'speed, ¼ to 8', commands: SPEEDS.map((speed) => ({ speed })) },
  { keys: ['?'], words: 'all keys', commands: ['keys'] },
];

const NAMED: Readonly<Record<string, Command>> = {
  s: 'start',
  e: 'end',
  r: 'return',
  w: 'waiting',
  p: 'seen',
  v: 'event',
  h: 'hands',
  u: 'undo',
  y: 'redo',
  ' ': 'play',
  arrowleft: 'frame-back',
  arrowright: 'frame-on',
  '[': 'change-back',
  ']': 'change-on',
  arrowup: 'step-before',
  arrowdown: 'step-after',
  '?': 'keys',
};

/** What a press means; `null` where the browser, or the person's own shortcuts, have it. */
export function commandOf({ key, shift = false, ctrl = false, alt = false, meta = false }: KeyPress): Command | null {
  if (ctrl || alt || meta) return null;
  const named = key.toLowerCase();
  if (shift && named === 'arrowleft') return 'half-back';
  if (shift && named === 'arrowright') return 'half-on';
  const speed = /^[1-6]$/.test(key) ? SPEEDS[Number(key) - 1] : undefined;
  if (speed !== undefined) return { speed };
  return Object.hasOwn(NAMED, named) ? (NAMED[named] ?? null) : null;
}
