import type {
  Case,
  Goal,
  GoalPart,
  ListRecord,
  NewCase,
  Procedure,
  Profile,
  ReadLasting,
  ReferenceSet,
  Reflection,
  StoredResult,
} from '../../model';

/** A change that arrives after somebody else's: nothing was written. */
export class StaleVersionError extends Error {
  /** @param now what stands there now, in words, where the page that was sent still shows what was typed */
  constructor(
    readonly what: string,
    now: string | null = null,
  ) {
    super(
      now === null
        ? `${what} was changed elsewhere since you opened it. Nothing was written; open it again to see both.`
        : `${what} was changed elsewhere since you opened it. Nothing was written. Stored now: ${now}. What you typed is still here; store it again to replace the stored values with it.`,
    );
  }
}

/** Anything the store refuses, with a message fit for a person; nothing was written. */
export class StorageError extends Error {
  constructor(
    readonly code:
      | 'locked'
      | 'unreadable'
      | 'newer'
      | 'missing'
      | 'changed-outside'
      | 'disk'
      | 'duplicate-code'
      | 'already-there'
      | 'in-use'
      | 'kept-as-it-is'
      | 'not-found'
      | 'invalid',
    message: string,
  ) {
    super(message);
  }
}

/** A list before the store has given it an id; `key` ties the cases of one import to it. */
export type NewList = Omit<ListRecord, 'id'> & { key: string };

/** The list of cases that are typed: one of the record by its id, one made with them, or none. */
export type NewListOrId = Omit<ListRecord, 'id'> | string | null;
export type TypedCase = Omit<Case, 'id' | 'version' | 'history' | 'sequence' | 'listId'>;

/**
 * What one confirmed import brings. `replace` holds cases of codes already in the record, taken instead of the old
 * values; `timesSeen`: their times had been seen, so that a fact changed now is marked.
 */
export type ImportBatch = {
  /** `there`: the list of the record that it is, where that is known. */
  lists: readonly (NewList & { there?: string | null })[];
  cases: readonly NewCase[];
  replace: readonly { caseId: string; case: NewCase; timesSeen: boolean }[];
  references: readonly Omit<ReferenceSet, 'id'>[];
};

/** An import between preview and confirm; kept on disk so that it works without JavaScript, without what looks like a person; gone after an hour. */
export type HeldImport = {
  id: string;
  heldAt: string;
  fileName: string;
  text: string;
  choices: Record<string, string>;
};

export type ImportRecord = {
  id: string;
  fileName: string;
  at: string;
  /** Hash of the file's text: the same file twice is recognised. */
  textHash: string;
  added: string[];
  replaced: string[];
  listsAdded: string[];
  referencesAdded: string[];
  undone: boolean;
};

/** A goal that a case belongs to, and as what. */
export type PartOfGoal = { goalId: string; part: GoalPart };

/** A document that cannot be read, as a person may decide about it. */
export type Damage = {
  name: string;
  /** Why, with the file's place, and where a copy of it was put. */
  message: string;
  /** What stands in it, in words. */
  holds: string;
  /** Can it come from an exported file? Drafts and imports are in none. */
  exported: boolean;
  /** A later version wrote it: nothing is wrong with it, and nothing is put in its place. */
  newer: boolean;
};

/** How many records of a part were added, changed and removed since. */
export type SinceThen = { added: number; changed: number; removed: number };

/**
 * A change before which the whole record is known, with what it changed, in words. `numbersOnly`: of what stood, nothing but the
 * numbers that are given out.
 */
export type BackupMoment = { at: string; holds: string[]; numbersOnly: boolean };

/** A document that differs now from what it was then; `problem`: what it was cannot be read. */
export type BackedFile = { name: string; holds: string } & ({ since: SinceThen } | { problem: string });

/**
 * A folder for copies of the whole record. `copiedAt` (ISO): the last one made since the program was started. `toForget`: so
 * many erased cases may still be in copies there.
 */
export type SecondFolder = {
  folder: string | null;
  copiedAt: string | null;
  problem: string | null;
  toForget: number;
  /** Whether copies are written encrypted, as the record is. */
  encrypted: boolean;
  /** Copies there that were not brought to that form: the folder was away, or they open with another passphrase. */
  otherForm: number;
};

/** Everything of one surgeon's record, as exported and imported. */
export type Everything = {
  format: 'next-twenty/everything/1';
  profile: Profile;
  procedures: Procedure[];
  lists: ListRecord[];
  cases: Case[];
  goals: Goal[];
  results: StoredResult[];
  reflections: Reflection[];
  references: ReferenceSet[];
};

/**
 * One surgeon's record, in the words of the job. Nobody outside an adapter knows about files.
 * Every promise of a change resolves only when the change is durable. Errors: StorageError, StaleVersionError.
 * `now` (ISO instant) is passed in where a change is dated: adapters have no clock of their own.
 */
export interface Store {
  readonly place: string;

  profile(): Promise<Profile>;
  /** The settings read and changed in one: `edit` gets them as they are at that moment, and may throw to refuse. */
  changeProfile(edit: (stored: Profile) => Profile): Promise<Profile>;

  /** The surgeon's own procedures and edits of shipped ones (an edit has the shipped id). */
  procedures(): Promise<Procedure[]>;
  /**
   * `edit` gets the surgeon's own version as it is at that moment, or `null`, and returns the one to be stored.
   * Returning `null` removes it: for an edit of a shipped procedure, the procedure is then as shipped again; one of the
   * surgeon's own goes with it, and is refused (`in-use`) while a case, a goal or a reference set is of it.
   */
  changeProcedure(id: string, edit: (stored: Procedure | null) => Procedure | null): Promise<void>;

  lists(): Promise<ListRecord[]>;
  recordList(list: Omit<ListRecord, 'id'>): Promise<ListRecord>;
  /** A list read and changed in one, as `changeProfile`. */
  changeList(id: string, edit: (stored: ListRecord) => ListRecord): Promise<ListRecord>;

  /** All cases in order of sequence. */
  cases(): Promise<Case[]>;
  caseById(id: string): Promise<Case | null>;
  recordCase(newCase: Omit<Case, 'id' | 'version' | 'history'>): Promise<Case>;
  /**
   * Cases as they are typed, at the end of the record in this order, with the list they make where `list` is a new one:
   * one change. Their places in time are given here, so that two pages sent at once never get the same.
   */
  recordCases(list: NewListOrId, cases: readonly TypedCase[]): Promise<{ list: ListRecord | null; cases: Case[] }>;
  /** Refused with StaleVersionError unless `changed.version` is the stored one; stored with version + 1 and a line of history. */
  updateCase(changed: Case, what: string, now: string): Promise<Case>;
  /**
   * Several cases in one change (a whole list's facts). All or none. `what`: one line for all, or a line a case.
   * @param onto a list made with the change, to which all of these cases move
   */
  updateCases(
    changed: readonly Case[],
    what: string | readonly string[],
    now: string,
    onto?: Omit<ListRecord, 'id'>,
  ): Promise<Case[]>;
  /**
   * Removes a case from store, history, drafts, and reflections' case links; only counts are kept: of all, of its
   * list, and of the goals it is part of, each with whether events had been answered.
   */
  eraseCase(id: string, now: string, partOf?: readonly PartOfGoal[]): Promise<void>;
  /** `null`: it cannot be read. */
  erasedCount(): Promise<number | null>;

  holdImport(held: Omit<HeldImport, 'id'>): Promise<HeldImport>;
  /** Those that wait now, in the order in which they came. */
  heldImports(now: string): Promise<HeldImport[]>;
  /** With the moment, `null` too where its hour is over. */
  heldImport(id: string, now?: string): Promise<HeldImport | null>;
  updateHeldImport(held: HeldImport): Promise<void>;
  dropHeldImport(id: string): Promise<void>;
  /** Those whose hour is over. */
  dropForgottenImports(now: string): Promise<void>;
  recordImport(
    held: Pick<HeldImport, 'id' | 'fileName'>,
    batch: ImportBatch,
    textHash: string,
    now: string,
  ): Promise<ImportRecord>;
  imports(): Promise<ImportRecord[]>;
  /** Takes a whole import back: what it added goes, what it replaced returns. Refused if a goal's baseline cases rest on it. */
  undoImport(id: string, now: string): Promise<ImportRecord>;

  goals(): Promise<Goal[]>;
  startGoal(goal: Omit<Goal, 'id'>): Promise<Goal>;
  /** A goal read and changed in one, as `changeProfile`. */
  changeGoal(id: string, edit: (stored: Goal) => Goal): Promise<Goal>;

  results(): Promise<StoredResult[]>;
  /** At most one result per goal and look; a second one for the same is refused. */
  storeResult(result: Omit<StoredResult, 'id'>): Promise<StoredResult>;
  /** Whether it lasted, as it was read, kept with its result. What was read of a following twenty before stays as it was. */
  storeLasted(resultId: string, read: readonly ReadLasting[]): Promise<StoredResult>;

  reflections(): Promise<Reflection[]>;
  saveReflection(reflection: Omit<Reflection, 'id' | 'version'>): Promise<Reflection>;
  updateReflection(changed: Reflection): Promise<Reflection>;
  /**
   * Removes a reflection and what was begun to change it. For a day, and until the next one is removed, a copy is kept
   * among the drafts to be put back; erasing a case of it reaches the copy too. Refused with StaleVersionError unless
   * `version` is the stored one.
   */
  removeReflection(id: string, version: number, now: string): Promise<void>;
  /** The reflection removed last, while it can be put back. */
  removedReflection(now: string): Promise<Reflection | null>;
  /** Puts it back under its own id. @throws StorageError `not-found` where it is no longer kept */
  putBackReflection(id: string, now: string): Promise<Reflection>;

  draft(key: string): Promise<string | null>;
  saveDraft(key: string, value: string): Promise<void>;
  /** A draft read and changed in one, as `changeProfile`. */
  changeDraft(key: string, edit: (stored: string | null) => string): Promise<void>;
  /** Drafts whose key begins so, the one saved last at the end. */
  draftsNamed(prefix: string): Promise<{ key: string; value: string }[]>;
  dropDraft(key: string): Promise<void>;

  references(): Promise<ReferenceSet[]>;
  saveReference(reference: Omit<ReferenceSet, 'id'>): Promise<ReferenceSet>;
  removeReference(id: string): Promise<void>;

  everything(): Promise<Everything>;
  /** Everything that can be read, and what is missing from it, in words. */
  readableEverything(): Promise<{ everything: Everything; missing: string[] }>;
  damaged(): Promise<Damage[]>;
  /**
   * Puts what an export or the newest good backup holds in the place of a document that cannot be read, or, with `null`,
   * goes on without it: it is then as new, and ids that others remember stay used. A copy of the unreadable file stays
   * beside it.
   */
  replaceDamaged(name: string, from: Everything | 'backup' | null): Promise<void>;
  /**
   * Moments at which something was changed and before which the whole record is known from its backups, newest first.
   * Drafts, and files that wait to be confirmed, have none.
   */
  backups(): Promise<BackupMoment[]>;
  /** What of the record differs now from what it was just before the change of that moment; `null`: no such moment. */
  changedSince(at: string): Promise<BackedFile[] | null>;
  /**
   * Brings back what stood just before the change of that moment: everything, or one document where what it names is still
   * there. One change, which leaves backups of its own. Counts of erased cases, and numbers once given, stay.
   * @returns the moment to go back to where this is to be undone, or `null` where nothing differed
   */
  restoreBackup(at: string, name: string | null, now: string): Promise<string | null>;
  /** The newest backup of a document that can be read; the change before which it stood. */
  newestBackup(name: string): Promise<{ at: string; holds: string } | null>;
  /** Where copies of the whole record go, beside its own folder; `null`: nowhere. */
  secondFolder(): Promise<SecondFolder | null>;
  /** Copies to that folder from now on, the first at once; `null`: no more. */
  chooseSecondFolder(folder: string | null): Promise<void>;
  /** Paths of copies of what could not be read. */
  setAside(): Promise<string[]>;
  dropSetAside(): Promise<void>;
  /** Adds to an empty record, or refuses: nothing is merged by guessing. */
  restoreEverything(everything: Everything): Promise<void>;
  /** Adds an invented surgeon's record to an empty one, marked as such; refused when real cases exist. */
  loadInvented(everything: Everything): Promise<void>;
  /** Removes all that is marked invented, in one change. */
  removeInvented(): Promise<void>;

  /**
   * Several changes as one: durable together, or none of them where one is refused. `begin` must begin them all at once,
   * without waiting in between; `recordImport` waits, and cannot be one of them.
   */
  together<Answers extends readonly unknown[]>(
    begin: () => { [Each in keyof Answers]: Promise<Answers[Each]> },
  ): Promise<Answers>;

  close(): Promise<void>;
}
