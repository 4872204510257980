/** Web and mail addresses, a path of this tool, a place on this page. `//host` and `/\host` leave the tool. */
const ALLOWED = /^(?:https?:\/\/[^/]|mailto:[^/]|\/(?![/\\])|#)/i;

/** Browsers drop tabs and newlines from addresses and read a backslash as a slash; no honest link here has either. */
// eslint-disable-next-line no-control-regex
const NEVER = /[\u0000-\u0020\u007f-\u00a0\u2028\u2029\\]/;

/** The address when it may stand in a page (unescaped), else null. */
export function safeLink(href: string): string | null {
  return ALLOWED.test(href) && !NEVER.test(href) ? href : null;
}
