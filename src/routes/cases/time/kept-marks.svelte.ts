import { readTimingDraft, type TimingDraft } from '$lib/recording';

/** How the marks of this tab stand against the disk. */
export type Keeping = 'kept' | 'keeping' | 'no-answer' | 'overtaken' | 'gone';

const AGAIN = 3000;

/**
 * Marks on their way to the disk, at every one of them; a copy stays with this tab, so that a reload finds marks that no
 * answer came for. Where another tab kept marks of the same case meanwhile, neither is written over before one is chosen.
 */
export class KeptMarks {
  state = $state<Keeping>('kept');
  /** Marks that another tab kept. */
  theirs = $state.raw<TimingDraft | null>(null);
  /** What the server said where it refuses. */
  why = $state('');

  readonly #code: string;
  readonly #take: (draft: TimingDraft) => void;
  readonly #tab: string;
  #revision: number;
  #next: TimingDraft | null = null;
  #sending = false;
  #mine: TimingDraft | null = null;

  constructor(code: string, revision: number, take: (draft: TimingDraft) => void) {
    this.#code = code;
    this.#revision = revision;
    this.#take = take;
    this.#tab = tabName();
  }

  get #place(): string {
    return `timing:${this.#code}`;
  }

  /** Marks of this tab that the disk has not got; `null` where it has all. */
  unkept(): TimingDraft | null {
    const copy = copied(this.#place);
    if (!copy || copy.kept) return null;
    // Kept elsewhere since: asked about with the next answer, as for any other tab.
    this.#revision = Math.min(this.#revision, copy.base);
    this.keep(copy.draft);
    return copy.draft;
  }

  keep(draft: TimingDraft): void {
    this.#mine = draft;
    this.#next = draft;
    this.#copy(draft, false);
    if (this.state !== 'overtaken') void this.#send();
  }

  /** Goes on with what the other tab kept, or writes this tab's marks over it. */
  choose(whose: 'theirs' | 'mine'): void {
    const { theirs } = this;
    if (!theirs) return;
    this.theirs = null;
    this.state = 'keeping';
    const draft = whose === 'theirs' ? theirs : (this.#mine ?? theirs);
    if (whose === 'theirs') this.#take(theirs);
    this.keep(draft);
  }

  /** The case is stored: no copy of it stays here. */
  forget(): void {
    sessionStorage.removeItem(this.#place);
  }

  async #send(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    while (this.#next && this.state !== 'overtaken' && this.state !== 'gone') {
      const draft = this.#next;
      this.#next = null;
      if (this.state !== 'no-answer') this.state = 'keeping';
      const well = await this.#sent(draft);
      if (!well && !this.#next) this.#next = draft;
      if (!well && this.state === 'no-answer') await new Promise((resolve) => setTimeout(resolve, AGAIN));
    }
    this.#sending = false;
  }

  async #sent(draft: TimingDraft): Promise<boolean> {
    try {
      const answer = await fetch('/cases/time/draft', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ draft, base: this.#revision, tab: this.#tab }),
        keepalive: true,
      });
      const said = (await answer.json()) as { revision?: number; overtakenBy?: unknown; message?: string };
      if (answer.status === 409) {
        this.#revision = said.revision ?? this.#revision;
        this.theirs = readTimingDraft(JSON.stringify(said.overtakenBy ?? null));
        this.state = 'overtaken';
        return false;
      }
      if (!answer.ok) {
        this.why = said.message ?? '';
        this.state = answer.status >= 500 ? 'no-answer' : 'gone';
        return false;
      }
      this.#revision = said.revision ?? this.#revision;
      this.state = 'kept';
      if (!this.#next) this.#copy(draft, true);
      return true;
    } catch {
      this.state = 'no-answer';
      return false;
    }
  }

  #copy(draft: TimingDraft, kept: boolean): void {
    try {
      sessionStorage.setItem(this.#place, JSON.stringify({ draft, kept, base: this.#revision }));
    } catch {
      // no room, or closed by a setting: the disk has the marks
    }
  }
}

function copied(place: string): { draft: TimingDraft; kept: boolean; base: number } | null {
  try {
    const value = JSON.parse(sessionStorage.getItem(place) ?? 'null') as Record<string, unknown> | null;
    const draft = readTimingDraft(JSON.stringify(value?.draft ?? null));
    return draft ? { draft, kept: value?.kept === true, base: Number(value?.base ?? 0) } : null;
  } catch {
    return null;
  }
}

/** A tab keeps its name over a reload: its own marks do not overtake it. */
function tabName(): string {
  try {
    const known = sessionStorage.getItem('tab');
    if (known) return known;
    const made = crypto.randomUUID();
    sessionStorage.setItem('tab', made);
    return made;
  } catch {
    return 'a tab';
  }
}
