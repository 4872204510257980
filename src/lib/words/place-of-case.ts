/** What is wrong in the form that places a case, or moves cases to another list, and what to do. */
export const PLACE_PROBLEMS = {
  position: 'Place in the list: a whole number from 1, or empty.',
  'none-ticked': 'Tick the cases that belong to another list.',
  'no-list': 'List: choose where they belong, or say when the new list was.',
  'same-list': 'List: they are on this list already.',
} as const;

export const remarkTooLong = (most: number): string => `Remark: at most ${most} characters.`;
