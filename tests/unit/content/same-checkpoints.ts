/**
 * Where two patterns of the record lead to the same three checkpoints of a page, in the same order, and why that is right
 * there. A pair that is not in here fails, and so does one that no longer is the same.
 */
export const SAME_CHECKPOINTS: readonly { because: string; on: Readonly<Record<string, readonly string[]>> }[] = [
  {
    because:
      'Both ask what is ready when the step begins: instruments, drugs, chair, view. The same preparation answers both.',
    on: {
      'waiting = first on list': [
        'phaco/side-port',
        'phaco/ovd-fill',
        'phaco/main-incision',
        'phaco/incision',
        'phaco/capsulorhexis',
        'phaco/capsule-polish',
        'phaco/bag-refill',
        'sics/bridle-suture',
        'sics/peritomy',
        'sics/scleral-tunnel',
        'sics/cortex-aspiration',
        'sics/bag-refill',
        'sics/iol-insertion',
        'sics/conjunctiva',
      ],
    },
  },
  {
    because: 'After a break the routine is wanted as it was, so the checks are those that hold the routine together.',
    on: {
      'hasty = after a break': ['phaco/side-port', 'sics/hydrodissection', 'sics/conjunctiva'],
      'late in list = after a break': ['phaco/ovd-fill', 'phaco/hydrodissection'],
      'waiting = after a break': ['phaco/cortex-aspiration', 'sics/capsulotomy', 'sics/wound-check'],
      'varies = after a break': ['phaco/capsule-polish', 'sics/iol-insertion'],
      'longer = after a break': ['phaco/wound-check'],
      'returned to = after a break': ['sics/bridle-suture'],
      'taken over = after a break': ['sics/bridle-suture'],
      'two humps = after a break': ['sics/ovd-removal'],
    },
  },
  {
    because: 'Both lead to what is never shortened on this step, which is what haste and a hurried hand leave out.',
    on: {
      'waiting = hasty': ['phaco/ovd-fill', 'phaco/ovd-removal', 'sics/ovd-removal'],
      'waiting = taken over': ['phaco/ovd-fill', 'sics/bag-refill'],
      'first on list = hasty': ['phaco/ovd-fill'],
      'first on list = taken over': ['phaco/ovd-fill', 'sics/cautery', 'sics/bag-refill'],
      'hasty = taken over': ['phaco/ovd-fill', 'phaco/segment-removal', 'phaco/wound-check', 'sics/iol-insertion'],
      'two humps = hasty': ['phaco/capsule-polish', 'phaco/ovd-removal', 'sics/bag-refill'],
      'late in list = hasty': ['phaco/iol-insertion', 'sics/nucleus-prolapse'],
      'after earlier = hasty': ['sics/bridle-suture'],
      'late in list = taken over': ['sics/cautery'],
      'after earlier = taken over': ['sics/cautery'],
      'longer = hasty': ['sics/bag-refill'],
    },
  },
  {
    because: 'What makes a surgeon return to a step is what it is taken over for: the end point was not reached.',
    on: {
      'returned to = taken over': [
        'phaco/main-incision',
        'phaco/capsulorhexis',
        'phaco/capsule-polish',
        'sics/bridle-suture',
        'sics/peritomy',
        'sics/side-port-ovd',
        'sics/bag-refill',
        'sics/conjunctiva',
      ],
    },
  },
  {
    because: 'A change of technique shows in either way, and the check is to settle on one.',
    on: {
      'over time = two humps': ['phaco/incision', 'phaco/bag-refill'],
      'varies = over time': ['phaco/iol-insertion'],
      'varies = two humps': ['sics/chamber-entry'],
    },
  },
  {
    because: 'Both are about the state in which the step begins, whoever or whatever brought it about.',
    on: {
      'waiting = certain eyes': ['phaco/capsulorhexis', 'sics/nucleus-delivery'],
      'waiting = late in list': [
        'phaco/capsulorhexis',
        'sics/peritomy',
        'sics/cortex-aspiration',
        'sics/iol-insertion',
      ],
      'certain eyes = late in list': ['phaco/capsulorhexis', 'phaco/nucleus-disassembly'],
      'certain eyes = first on list': ['phaco/capsulorhexis'],
      'waiting = two humps': ['phaco/nucleus-removal', 'phaco/ovd-removal'],
      'first on list = after earlier': [
        'phaco/cortex-aspiration',
        'sics/peritomy',
        'sics/cautery',
        'sics/scleral-tunnel',
        'sics/chamber-entry',
        'sics/nucleus-prolapse',
      ],
      'waiting = after earlier': [
        'sics/peritomy',
        'sics/scleral-tunnel',
        'sics/nucleus-prolapse',
        'sics/nucleus-delivery',
      ],
      'late in list = after earlier': ['sics/peritomy', 'sics/cautery'],
      'varies = waiting': ['sics/hydrodissection'],
      'varies = first on list': ['sics/hydrodissection'],
      'certain eyes = after earlier': ['sics/nucleus-delivery', 'sics/wound-check', 'sics/conjunctiva'],
      'returned to = waiting': ['sics/bag-refill'],
      'returned to = first on list': ['sics/bag-refill'],
    },
  },
  {
    because: 'At either end of a list the hand is not at its best, and the same check steadies it.',
    on: {
      'late in list = first on list': [
        'phaco/capsulorhexis',
        'sics/peritomy',
        'sics/cautery',
        'sics/cortex-aspiration',
        'sics/iol-insertion',
      ],
    },
  },
  {
    because: 'On this short page the check that shortens nothing but removes repetition serves both.',
    on: {
      'longer = two humps': ['sics/bag-refill'],
      'longer = over time': ['sics/ovd-removal'],
    },
  },
  {
    because:
      'Teaching, machine and anaesthesia are changes of circumstance, as a change over the months is: the check asks what is no longer as it was.',
    on: {
      'over time = circumstances': [
        'phaco/ovd-fill',
        'phaco/capsulorhexis',
        'phaco/hydrodissection',
        'phaco/nucleus-removal',
        'phaco/segment-removal',
        'phaco/iol-insertion',
        'phaco/ovd-removal',
        'sics/capsulotomy',
        'sics/hydrodissection',
        'sics/nucleus-prolapse',
        'sics/iol-insertion',
        'sics/ovd-removal',
      ],
      'varies = circumstances': ['phaco/iol-insertion'],
      'longer = circumstances': ['sics/ovd-removal'],
    },
  },
  {
    because:
      'An earlier step that is renewed again and again is an end point not reached, as a return to this step is.',
    on: {
      'returned to = renewed': ['phaco/main-incision', 'phaco/incision'],
      'taken over = renewed': ['phaco/main-incision'],
    },
  },
  {
    because:
      'The page has no check for the first of the two, so its first three stand, and these begin with the same one.',
    on: {
      'waiting = eye:poor-view': ['phaco/capsulorhexis'],
      'waiting = part:behind-the-optic-pass': ['phaco/ovd-removal', 'sics/ovd-removal'],
      'waiting = eye:nucleus-size': ['sics/nucleus-delivery'],
      'waiting = eye:nucleus:very-hard': ['sics/nucleus-delivery'],
      'after earlier = part:needle-flat': ['sics/bridle-suture'],
    },
  },
];
