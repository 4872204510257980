export { ContentError } from './content-error';
export { CAUTION_NAMES, type Caution, type CautionName } from './cautions';
export { DRILL_PLACES } from './guidance-schema';
// The command line imports `library` alone: it prints no HTML, and the sanitiser takes a tenth of a second to load.
export { loadCautions, loadEyeCards, loadGuidance, loadMethodPages, loadProcedures, loadRehearsals } from './library';
export type { MethodPage } from './method-pages';
export { renderLine, renderShortRead } from './render-guidance';
export { renderMarkdown } from './render-markdown';
export { renderOwnMarkdown } from './render-own-markdown';
