import { strToU8, zipSync } from 'fflate';

type Cell = string | number | null;

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const escaped = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

/** The smallest workbook of ECMA-376 (Office Open XML, part 1): text inline, numbers as they are. */
export function workbook(sheets: Readonly<Record<string, readonly (readonly Cell[])[]>>): Buffer {
  const names = Object.keys(sheets);
  const each = (make: (name: string, number: number) => string) => names.map((name, at) => make(name, at + 1)).join('');
  const files: Record<string, string> = {
    '[Content_Types].xml': `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>${each((_, n) => `<Override PartName="/xl/worksheets/sheet${n}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`)}</Types>`,
    '_rels/.rels': `<Relationships xmlns="${RELATIONS}"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${each((name, n) => `<sheet name="${escaped(name)}" sheetId="${n}" r:id="rId${n}"/>`)}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${RELATIONS}">${each((_, n) => `<Relationship Id="rId${n}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${n}.xml"/>`)}</Relationships>`,
  };
  for (const [at, name] of names.entries()) files[`xl/worksheets/sheet${at + 1}.xml`] = sheetXml(sheets[name] ?? []);
  return Buffer.from(
    zipSync(Object.fromEntries(Object.entries(files).map(([path, xml]) => [path, strToU8(HEAD + xml)]))),
  );
}

function sheetXml(rows: readonly (readonly Cell[])[]): string {
  const cell = (value: Cell, at: string) => {
    if (value === null) return '';
    if (typeof value === 'number') return `<c r="${at}"><v>${value}</v></c>`;
    return `<c r="${at}" t="inlineStr"><is><t>${escaped(value)}</t></is></c>`;
  };
  const lines = rows.map((row, at) => {
    const cells = row.map((value, column) => cell(value, `${String.fromCharCode(65 + column)}${at + 1}`));
    return `<row r="${at + 1}">${cells.join('')}</row>`;
  });
  return `<worksheet xmlns="${MAIN}"><sheetData>${lines.join('')}</sheetData></worksheet>`;
}
