/** Path from the project's root (`content/procedures/phaco.yaml`) → text. Sorted by path. */
export type ContentFiles = Readonly<Record<string, string>>;

/** Vite's keys begin with the project's root as `/`; without it they are the paths a reader can open. */
const named = (files: Record<string, string>): ContentFiles =>
  Object.fromEntries(
    Object.entries(files)
      .map(([path, text]) => [path.replace(/^\//, ''), text] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );

// Vite needs each pattern and its options written out: they are read, not run.
export const procedureFiles = named(
  import.meta.glob<string>('/content/procedures/*.yaml', { query: '?raw', import: 'default', eager: true }),
);
export const checkpointFiles = named(
  import.meta.glob<string>('/content/checkpoints/**/*.md', { query: '?raw', import: 'default', eager: true }),
);
export const cautionFiles = named(
  import.meta.glob<string>('/content/cautions/*.md', { query: '?raw', import: 'default', eager: true }),
);
export const methodFiles = named(
  import.meta.glob<string>('/content/method/*.md', { query: '?raw', import: 'default', eager: true }),
);
export const eyeCardFiles = named(
  import.meta.glob<string>('/content/eyes/*.md', { query: '?raw', import: 'default', eager: true }),
);
export const rehearsalFiles = named(
  import.meta.glob<string>('/content/rehearsals/*.md', { query: '?raw', import: 'default', eager: true }),
);
