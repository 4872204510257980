import type { DocumentKind } from '../documents';

/** From the shape before to the shape of `to`, for the kinds of document it concerns; the others only change number. */
export type Migration = {
  to: number;
  documents: { readonly [Kind in DocumentKind]?: (document: Record<string, unknown>) => Record<string, unknown> };
};
