export type { ReportRecord, ReportView } from './report';
export { goalReport } from './goal-report';
export { monthReport } from './month-report';
export { yearReport } from './year-report';
export { withoutPersons } from './without-persons';
export { reportMarkdown } from './markdown';
