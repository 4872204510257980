import {
  canRedo,
  canUndo,
  commandOf,
  edited,
  endStep,
  fingerprintOf,
  marksOf,
  newDraft,
  nextTick,
  redone,
  running,
  speedNear,
  startStep,
  stepInHand,
  toggleSeen,
  toggleWaiting,
  toMillisecond,
  undone,
  HANDS,
  type Command,
  type Edit,
  type KnownRecording,
  type Log,
  type TimingDraft,
} from '$lib/recording';
import type { TimingView } from '$lib/rooms/cases/timing-view';
import { Player } from '$lib/ui/recording/player.svelte';
import { Scan } from '$lib/ui/recording/scan.svelte';
import { KeptMarks } from './kept-marks.svelte';

/** One end of one interval, taken in hand to be moved. */
export type InHand = { row: number; edge: 'from' | 'to' };

/** A press of these moves the picture; a mark in hand goes with it. */
const MOVES = ['frame-back', 'frame-on', 'half-back', 'half-on', 'change-back', 'change-on'] as const;
type Move = (typeof MOVES)[number];
const isMove = (command: Command): command is Move => MOVES.some((each) => each === command);

/** The timing of one case: its recording, its marks, and what a key or a button does. */
export class Timing {
  readonly player = new Player();
  readonly scan = new Scan();
  readonly kept: KeptMarks;

  log = $state.raw<Log>({ edits: [], holds: 0 });
  recording = $state.raw<KnownRecording | null>(null);
  /** A step chosen in the list, where it is not the next one. */
  chosen = $state<string | null>(null);
  inHand = $state<InHand | null>(null);
  /** The name of the open file: shown, and stored nowhere. */
  fileName = $state('');
  /** The open file is not the one the marks were made on. */
  other = $state(false);
  slowNear = $state(false);
  fast = $state(4);
  keysShown = $state(false);
  eventAsked = $state(false);
  /** Said for those who do not see the list: what a key did. */
  said = $state('');

  readonly marks = $derived(marksOf(this.log));
  readonly #steps: TimingView['steps'];
  readonly step = $derived.by(() => this.chosen ?? stepInHand(this.log, this.#order));
  readonly runs = $derived(running(this.marks, 'step'));
  readonly waits = $derived(running(this.marks, 'waiting'));
  readonly canUndo = $derived(canUndo(this.log));
  readonly canRedo = $derived(canRedo(this.log));
  readonly #order: { id: string; parts: readonly string[] }[];
  #turn: Promise<void> = Promise.resolve();
  #busy = 0;

  constructor(
    readonly view: TimingView,
    kept: { draft: TimingDraft | null; revision: number },
  ) {
    this.#steps = view.steps;
    // Steps that stand for others come last in hand: whoever times them as one chooses so in the list.
    this.#order = view.steps
      .filter(({ mergeOf }) => mergeOf.length === 0)
      .map(({ id, parts }) => ({ id, parts: parts.map((part) => part.id) }));
    this.kept = new KeptMarks(view.code, kept.revision, (draft) => this.#take(draft));
    this.#take(kept.draft ?? newDraft(view.code));
    this.player.onframe = () => this.#pace();
  }

  /** Marks that this tab holds and the disk does not; only in a browser. */
  begin(): void {
    const own = this.kept.unkept();
    if (own) this.#take(own);
  }

  end(): void {
    this.scan.forget();
    this.player.close();
  }

  draft = (): TimingDraft => ({
    format: 'next-twenty/timing/1',
    code: this.view.code,
    log: this.log,
    recording: this.recording,
    at: toMillisecond(this.player.shown),
  });

  async open(file: File): Promise<void> {
    this.fileName = file.name;
    const at = this.#at;
    this.scan.forget();
    if (!(await this.player.open(file))) return;
    const fingerprint = await fingerprintOf(file);
    const before = this.recording;
    this.other = before !== null && fingerprint !== null && before.fingerprint !== fingerprint;
    if (fingerprint && !this.other)
      this.recording = { size: file.size, fingerprint, duration: toMillisecond(this.player.duration ?? 0) || null };
    this.#opened = { file, fingerprint };
    if (at > 0 && !this.other) await this.player.goTo(at);
    if (this.player.duration !== null) void this.scan.start(file, this.player.duration);
  }

  /** The surgeon says that the marks go with this other recording. */
  takeOther(): void {
    const { file, fingerprint } = this.#opened;
    if (!file || !fingerprint) return;
    this.recording = { size: file.size, fingerprint, duration: toMillisecond(this.player.duration ?? 0) || null };
    this.other = false;
    this.#changed(this.log);
  }

  #opened: { file: File | null; fingerprint: string | null } = { file: null, fingerprint: null };
  #at = 0;

  #take(draft: TimingDraft): void {
    this.log = draft.log;
    this.recording = draft.recording;
    this.#at = draft.at;
    this.inHand = null;
  }

  edit = (edit: Edit): void => this.#changed(edited(this.log, edit));

  #changed(log: Log): void {
    if (log === this.log) return;
    this.log = log;
    this.kept.keep(this.draft());
  }

  /** `true`: the key is ours. What it does waits until the picture has arrived where earlier keys sent it. */
  press(event: KeyboardEvent): boolean {
    const command = commandOf({
      key: event.key,
      shift: event.shiftKey,
      ctrl: event.ctrlKey,
      alt: event.altKey,
      meta: event.metaKey,
    });
    if (command === null) return false;
    // A key held down must not pile up moves that go on after it is let go.
    if (!(event.repeat && this.#busy > 0)) this.act(command);
    return true;
  }

  act = (command: Command): void => {
    // While it plays a mark is of the moment of the key, whatever the page has still to do before it.
    const at = this.player.playing && this.#busy === 0 ? this.player.now : null;
    this.#busy += 1;
    this.#turn = this.#turn
      .then(() => this.#do(command, at))
      .catch(() => undefined)
      .finally(() => (this.#busy -= 1));
  };

  async #do(command: Command, pressed: number | null): Promise<void> {
    const { player } = this;
    if (typeof command === 'object') return this.setSpeed(command.speed);
    if (isMove(command)) {
      await this.#move(command);
      if (this.inHand) this.edit({ do: 'move', ...this.inHand, at: toMillisecond(player.shown) });
      return;
    }
    await player.settled();
    const at = pressed ?? player.now;
    switch (command) {
      case 'play':
        return player.toggle();
      case 'start':
        return this.#start(this.#next(at), at);
      case 'return':
        return this.#start(this.step, at);
      case 'end':
        return this.#mark(endStep(this.log, at));
      case 'waiting':
        return this.#mark(toggleWaiting(this.log, at));
      case 'seen':
        return this.#seen();
      case 'hands':
        return this.#hands();
      case 'event':
        this.eventAsked = true;
        return player.pause();
      case 'undo':
        this.inHand = null;
        this.said = 'undone';
        return this.#changed(undone(this.log));
      case 'redo':
        this.said = 'done again';
        return this.#changed(redone(this.log));
      case 'step-before':
        return this.#choose(-1);
      case 'step-after':
        return this.#choose(1);
      case 'keys':
        this.keysShown = !this.keysShown;
    }
  }

  async #move(move: Move): Promise<void> {
    const { player } = this;
    if (move === 'frame-back' || move === 'frame-on') return player.frame(move === 'frame-on' ? 1 : -1);
    if (move === 'half-back' || move === 'half-on') return player.by(move === 'half-on' ? 0.5 : -0.5);
    await player.settled();
    const tick = nextTick(this.scan.ticks, player.shown, move === 'change-on' ? 1 : -1);
    if (tick !== null) await player.goTo(tick);
  }

  #mark(log: Log): void {
    const before = this.log;
    this.#changed(log);
    if (log !== before) {
      this.chosen = null;
      this.said = 'marked';
    }
  }

  /** While a step runs and no other is chosen, the one after it begins here: most follow each other without a break. */
  #next(at: number): string | null {
    const { runs, chosen } = this;
    return runs && (chosen === null || chosen === runs.stepId)
      ? stepInHand(endStep(this.log, at), this.#order)
      : this.step;
  }

  #start(step: string | null, at: number): void {
    if (step === null || this.runs?.stepId === step) return;
    this.#mark(startStep(this.log, step, at));
  }

  /** The step that a key about a step means: the one that runs or is chosen, else the one ended last. */
  get about(): string | null {
    const last = this.marks.rows.findLast(({ kind }) => kind === 'step')?.stepId ?? null;
    return this.chosen ?? this.runs?.stepId ?? last ?? this.step;
  }

  #seen(): void {
    const parts = this.#steps.find(({ id }) => id === this.about)?.parts ?? [];
    const next = parts.find(({ id }) => this.marks.seen[id] === undefined) ?? parts[0];
    if (next) this.#changed(toggleSeen(this.log, next.id));
  }

  #hands(): void {
    const stepId = this.about;
    if (stepId === null) return;
    const now = HANDS.indexOf(this.marks.hands[stepId] ?? 'mine');
    this.edit({ do: 'hands', stepId, hands: HANDS[(now + 1) % HANDS.length] ?? 'mine' });
  }

  #choose(way: 1 | -1): void {
    if (this.runs && this.chosen === null) this.chosen = this.runs.stepId;
    const at = this.#steps.findIndex(({ id }) => id === this.step);
    const next = this.#steps[at === -1 ? this.#steps.length - 1 : at + way];
    if (next) this.chosen = next.id;
  }

  setSpeed(speed: number): void {
    this.slowNear = false;
    this.player.setSpeed(speed);
  }

  playSlowNear(): void {
    this.slowNear = true;
    this.#pace();
  }

  /** With *slow near*: fast between boundaries, at normal speed near the one that comes. */
  #pace(): void {
    if (!this.slowNear) return;
    const { rows } = this.marks;
    const last = Math.max(...rows.flatMap(({ kind, from, to }) => (kind === 'step' ? [from, to ?? from] : [])));
    const next = this.runs ? `${this.runs.stepId}:to` : `${this.step}:from`;
    const since = Number.isFinite(last) ? this.player.shown - last : null;
    const speed = speedNear(since, this.view.expected?.[next] ?? null, this.fast);
    if (speed !== this.player.speed) this.player.setSpeed(speed);
  }

  /** Takes one end of an interval in hand, and shows it. */
  take = (inHand: InHand | null): void => {
    this.inHand = inHand;
    const row = inHand && this.marks.rows.find((one) => one.row === inHand.row);
    const at = row && inHand && (inHand.edge === 'from' ? row.from : row.to);
    if (at !== null && at !== undefined) this.show(at);
  };

  /** Shows a place of the recording: the middle of its frame, as its beginning may show the one before. */
  show = (seconds: number): void => {
    this.#busy += 1;
    this.#turn = this.#turn
      .then(() => this.player.goTo(seconds + 0.004))
      .catch(() => undefined)
      .finally(() => (this.#busy -= 1));
  };

  /** A picture of the contact sheet is chosen: it is shown, and a mark in hand goes there. */
  pick = (seconds: number): void => {
    this.show(seconds);
    const { inHand } = this;
    if (inHand) this.edit({ do: 'move', ...inHand, at: toMillisecond(seconds) });
  };
}
