const two = (/** @type {number} */ value) => String(value).padStart(2, '0');

/**
 * A cell as the text a CSV of the same sheet would hold. Times come out of a workbook as moments counted from the last
 * days of 1899: "1:23" typed into a sheet, or a length in [h]:mm:ss. Only the time of such a moment is meant, and a
 * length over a day has moved on to the next date.
 *
 * @param {unknown} cell
 * @returns {string}
 */
export function cellText(cell) {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (!(cell instanceof Date)) return String(cell);
  if (Number.isNaN(cell.getTime())) return '';
  if (cell.getUTCFullYear() > 1900) return cell.toISOString().slice(0, 10);
  const seconds = Math.round((cell.getTime() - Date.UTC(1899, 11, 30)) / 1000);
  return `${Math.floor(seconds / 3600)}:${two(Math.floor((seconds % 3600) / 60))}:${two(seconds % 60)}`;
}

/**
 * Rows of a sheet as comma-separated text, every cell quoted that needs it.
 *
 * @param {readonly (readonly unknown[])[]} rows
 */
export function sheetText(rows) {
  const quoted = (/** @type {string} */ text) => (/[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  return rows.map((row) => row.map((cell) => quoted(cellText(cell))).join(',')).join('\n');
}
