import { BACKUP_MOST } from './backup';

const MEGABYTE = 1024 * 1024;

/** Whole files come in here, each up to so many bytes; every other form is small. */
const filesComeIn: readonly [path: string, most: number][] = [
  ['/cases/bring-in', 32 * MEGABYTE],
  // A packet's text goes round once more in a form, where each quotation mark takes three letters.
  ['/settings/packet', 32 * MEGABYTE],
  ['/settings/restore', BACKUP_MOST + MEGABYTE],
  ['/settings/damaged', BACKUP_MOST + MEGABYTE],
];
const smallBody = 512 * 1024;

export const readOnly = ['GET', 'HEAD', 'OPTIONS'];

/**
 * May this request change anything? Only from a page of our own, and not larger than a form is.
 * Kit's own check lets JSON and posts without a content type through, and is off in development.
 * @returns why not, as a sentence with its HTTP status, or null
 */
export function refusedChange(request: Request, url: URL): { status: number; why: string } | null {
  if (readOnly.includes(request.method)) return null;

  const origin = request.headers.get('origin');
  const site = request.headers.get('sec-fetch-site');
  // A browser sends Origin with every post; a request without either header does not come from a page of ours.
  const ours = origin === url.origin && (site === null || site === 'same-origin');
  if (!ours)
    return { status: 403, why: "Changes are accepted only from this program's own pages. Nothing was changed." };

  const file = filesComeIn.find(([path]) => url.pathname === path || url.pathname.startsWith(`${path}/`));
  const length = request.headers.get('content-length');
  if (length === null && request.body)
    return { status: 411, why: 'The length of what was sent is not known, so it was not read. Nothing was changed.' };
  if (file && Number(length) > file[1])
    return {
      status: 413,
      why: `That is more than this page takes in (${Math.floor(file[1] / 1e6)} MB). Nothing was changed.`,
    };
  if (!file && Number(length) > smallBody)
    return { status: 413, why: 'That is more than a form of this page can hold (512 kB). Nothing was changed.' };
  return null;
}
