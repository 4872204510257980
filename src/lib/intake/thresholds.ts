/** Every number that decides something in intake, with its reason. */
export const intakeThresholds = {
  /** Longest believable step, seconds: two hours. Longer is a clock reading or a slip of the finger. */
  longestSeconds: 7200,
  /** Stretches of one step closer than this, seconds, are one: below it nobody left the step. */
  joinSeconds: 1,
  /** A length may differ this much, seconds, from end less start before it is asked about: people round. */
  roundingSeconds: 1,
  /** Usual length (median) below which plain decimals are more likely minutes than seconds: whole steps rarely last so short. */
  minutesBelow: 15,
  /** Clock readings of a whole operation that end below this, plain decimals, are minutes: nobody is done in a minute. */
  readingsEndBelow: 60,
  /** How unlikely a chance rise must be (log of the odds) before rows that only rise are taken as clock readings: 1 in 1,000. */
  riseEvidence: Math.log(1000),
  /** Values in a row needed to see a rise at all. */
  riseLength: 3,
  /** Share of cells that must read as levels before a heading that names a fact and a step is the fact. */
  factShare: 0.8,
  /** A column named like a step in which more than this share of cells is no time is no column of times … */
  notTimesShare: 0.5,
  /** … if there are at least so many of them; fewer are slips, each named. */
  notTimesCells: 3,
  /** Headings are looked for in the first rows only: a title and a blank line above them are common, more are not. */
  headingRows: 12,
  /** Numbers that begin again on each list are places in a list, and no list is longer than a long camp day. */
  longestList: 80,
  /** Longest code of a case, as stored. */
  codeLength: 40,
  /** Digits in a row from which a code looks like a hospital's number, not one's own. */
  hospitalDigits: 6,
  /** Share of the different cells of a column nobody reads from which on it looks like a column of persons, not like remarks with a name in them. */
  personShare: 0.2,
  /** Rows looked at to tell what a column holds. */
  columnSample: 400,
  /** Rows looked at to tell which procedure a file is of: some two hundred cases. */
  procedureSample: 2_000,
  /** Most lines, empty ones counted: no spreadsheet holds more. */
  mostLines: 1_048_576,
  /** Most rows that hold anything: 25,000 cases of twelve stretches, more than one surgeon's twenty years. */
  mostRows: 300_000,
  /** Most columns: every step of the longest procedure with start, end, waiting, hands and returns, and every fact, take 150; an export may hold hundreds more that nobody reads. */
  mostColumns: 500,
  /** Longest cell, letters: a spreadsheet holds 32,767 in one; more is a file swallowed by a quotation mark. */
  longestCell: 50_000,
  /** Longest row, letters: beyond it no end of the row is looked for. */
  longestRow: 250_000,
  /** Most different names in the column of steps: more is another column. */
  mostLabels: 1_000,
  /** Problems listed with row and value; all are counted. */
  problemsListed: 10_000,
  /** Share of the cases from which on a word under the events can hardly be an event: it is asked about … */
  eventCommonShare: 0.5,
  /** … if it stands in at least so many: fewer may be chance. */
  eventCommonCases: 5,
  /** The same for the name of a kind of event: it says plainly what it is, so more are needed to doubt it. */
  kindCommonCases: 10,
  /** Words for hands asked about; more are another column, each named. */
  handWords: 12,
  /** Rows shown with a question. */
  examples: 3,
} as const;
