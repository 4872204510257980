/** A step's label with the kind of eye a goal on it is aimed at: "Capsulorhexis (pupil small)". */
export const aimedLabel = (label: string, eyes: { label: string } | null | undefined): string =>
  eyes ? `${label} (${eyes.label})` : label;
