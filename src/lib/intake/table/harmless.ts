/**
 * A cell that begins with one of these is run as a formula by a spreadsheet, whatever the file says
 * (OWASP, "CSV Injection"); a leading apostrophe keeps it text.
 */
const FORMULA = /^'*[=+\-@\t\r]/;
const MARKED = /^''*[=+\-@\t\r]/;

export const harmless = (cell: string): string => (FORMULA.test(cell) ? `'${cell}` : cell);

/** Takes that apostrophe off again, so that a file of ours comes back as it went out. */
export const unharmed = (cell: string): string => (cell.startsWith("'") && MARKED.test(cell) ? cell.slice(1) : cell);
