import type { ReportView } from './report';

/** The report as Markdown; text of reflections is quoted as written. */
export function reportMarkdown(report: ReportView): string {
  const quote = (text: string) =>
    text
      .split('\n')
      .map((line) => `> ${line}`)
      .join('\n');
  return [
    `# ${report.title}`,
    report.period,
    ...report.sections.map((section) =>
      [
        `## ${section.heading}`,
        ...(section.strong ? [`**${section.strong}**`] : []),
        ...section.lines,
        tableOf(section.table),
      ]
        .filter(Boolean)
        .join('\n\n'),
    ),
    ...(report.notes.length > 0
      ? [
          '## From my notes',
          ...report.notes.map((note) =>
            [`${note.month}:`, ...[note.saw, note.willTry].filter(Boolean).map(quote)].join('\n\n'),
          ),
        ]
      : []),
    '## How the numbers are made',
    report.footnotes.map((line) => `- ${line}`).join('\n'),
    report.cautions.map((line) => `*${line}*`).join('\n\n'),
  ]
    .join('\n\n')
    .concat('\n');
}

function tableOf(table: ReportView['sections'][number]['table']): string {
  if (!table) return '';
  const row = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [row(table.columns), row(table.columns.map(() => '---')), ...table.rows.map(row)].join('\n');
}
