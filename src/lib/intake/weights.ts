/**
 * What a small step of a reading weighs, in rows (some ten microseconds each): the longer a step takes, the fewer of them
 * make a slice.
 */
export const weights = {
  row: 1,
  /** Its cells are looked at one by one, and it may have three hundred. */
  cell: 0.1,
  /** Some ten rows, or one of three hundred cells. */
  case: 10,
  /** A name nobody knows is held against every name there is, letter by letter. */
  name: 20,
  /** Looked into over some hundred rows. */
  column: 70,
  /** A part of the file's text, bytes or letters. */
  part: 200,
} as const;
