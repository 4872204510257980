type Told = HTMLInputElement;

const groupsOf = (matrix: Element) => [...matrix.querySelectorAll<HTMLElement>('[role="radiogroup"]')];
const chosenIn = (group: HTMLElement) => group.querySelector<Told>('input:checked');
const noneIn = (group: HTMLElement) => group.querySelector<Told>('input[value=""]');

/**
 * What scripts add to the answers of one checkpoint, all of them radios that work without: one key gives an answer and
 * goes on to the next case, Enter goes on to the next checkpoint, and "in all the others" is seen at once. It is taken back by taking its mark away, for the
 * answers it gave, and goes by itself once one of the others is said to be not answered.
 */
export function answerMatrix(matrix: HTMLElement): () => void {
  const all = matrix.querySelector<Told>('input[name^="all:"]');
  const given = new Set<HTMLElement>();

  function fill() {
    if (!all) return;
    for (const group of groupsOf(matrix)) {
      const none = noneIn(group);
      const answer = [...group.querySelectorAll<Told>('input')].find(({ value }) => value === all.value);
      if (all.checked && answer && (chosenIn(group)?.value ?? '') === '') {
        answer.checked = true;
        given.add(group);
      } else if (!all.checked && none && given.has(group) && answer?.checked) none.checked = true;
    }
    if (!all.checked) given.clear();
  }

  function change({ target }: Event) {
    if (target === all) return fill();
    if (!(target instanceof HTMLInputElement)) return;
    const group = target.closest<HTMLElement>('[role="radiogroup"]');
    if (group) given.delete(group);
    if (target.value === '' && all) all.checked = false;
  }

  function keydown(event: KeyboardEvent) {
    if (event.ctrlKey || event.metaKey || event.altKey || !(event.target instanceof HTMLElement)) return;
    // In a radio or a box Enter would send the form, long before it is filled in.
    if (event.key === 'Enter') {
      event.preventDefault();
      const after =
        matrix.nextElementSibling?.querySelector('input') ?? matrix.closest('form')?.querySelector('textarea');
      return after?.focus();
    }
    const group = event.target.closest<HTMLElement>('[role="radiogroup"]');
    const answer = group?.querySelector<Told>(`input[data-key="${CSS.escape(event.key.toLowerCase())}"]`);
    if (!group || !answer) return;
    event.preventDefault();
    answer.click();
    const groups = groupsOf(matrix);
    const next = groups[groups.indexOf(group) + 1] ?? group;
    (chosenIn(next) ?? next.querySelector<Told>('input'))?.focus();
  }

  fill();
  matrix.addEventListener('change', change);
  matrix.addEventListener('keydown', keydown);
  return () => {
    matrix.removeEventListener('change', change);
    matrix.removeEventListener('keydown', keydown);
  };
}
