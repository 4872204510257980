/** The sentence an address picks (`?said=stored`); `null` for one that is not among ours, `constructor` as well. */
export function saidIn(sentences: Readonly<Record<string, string>>, { searchParams }: URL): string | null {
  const said = searchParams.get('said') ?? '';
  return Object.hasOwn(sentences, said) ? (sentences[said] ?? null) : null;
}
