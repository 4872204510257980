import type { z } from 'zod';
import {
  caseSchema,
  goalSchema,
  listRecordSchema,
  procedureSchema,
  profileSchema,
  referenceSetSchema,
  reflectionSchema,
  textsWritten,
  type Profile,
} from '../model';
import { personIn, type LooksLike, type TextKind } from '../persons';
import type { FieldError, Fields } from '../rooms/forms/fields';
import { asksWho } from '../words';
import { fieldsOf } from './form-fields';
import { StorageError, type Store } from './storage/port';

/** A text typed just now cannot be stored as it is. `field` is the one of the form in which it stands. */
export class TypedTextError extends StorageError {
  constructor(
    readonly field: string,
    message: string,
  ) {
    super('invalid', message);
  }
}

/** What every text of a request is asked, whatever form it comes from; and what was answered. */
export class AboutPersons {
  /** Said to be none with this request, to be kept. */
  readonly saidNone = new Set<string>();
  #sent: Fields = {};

  /** @param none bits said to be none earlier */
  constructor(readonly none: readonly string[]) {}

  /** Called with the form as it is read: only what was typed there is asked about. */
  heardForm(form: FormData): void {
    this.#sent = fieldsOf(form);
  }

  /** For a text that is kept as a draft first, so that it is asked about beside its own field. */
  errorsIn(fields: readonly string[], kind: TextKind): FieldError[] {
    return fields.flatMap((field) => {
      const found = this.#found([{ text: (this.#sent[field] ?? []).join('\n'), kind }]);
      return found.length > 0 ? [{ field, message: asksWho(found.map(({ one }) => one)) }] : [];
    });
  }

  /** @throws TypedTextError where a text of the value, not in the one before, was typed now and is too long or looks like a person */
  check(schema: z.core.$ZodType, after: unknown, before: unknown = null): void {
    if (Object.keys(this.#sent).length === 0) return;
    const old = new Set(textsWritten(schema, before).map(({ text }) => text));
    const fresh = textsWritten(schema, after).filter(({ text }) => !old.has(text));
    for (const { text, most } of fresh) {
      const field = text.length > most ? this.#typedIn(text, most) : undefined;
      if (field !== undefined)
        throw new TypedTextError(field, `At most ${most} characters; these are ${text.length}. Nothing was cut off.`);
    }
    const found = this.#found(fresh);
    const [first] = found;
    if (first) throw new TypedTextError(first.field, asksWho(found.map(({ one }) => one)));
  }

  /** The field that makes a text longer than it may be. */
  #typedIn(text: string, most: number): string | undefined {
    const names = Object.keys(this.#sent).filter((name) => (this.#sent[name]?.[0] ?? '').trim().length > most);
    // A tag is part of what was typed in its field.
    return names.find((name) => {
      const typed = (this.#sent[name]?.[0] ?? '').trim();
      return text.includes(typed) || typed.includes(text);
    });
  }

  #found(texts: readonly { text: string; kind: TextKind }[]): { one: LooksLike; field: string }[] {
    const found = texts.flatMap(({ text, kind }) =>
      personIn(text, kind, this.none).flatMap((one) => {
        const field = Object.keys(this.#sent).find((name) => this.#sent[name]?.some((sent) => sent.includes(one.bit)));
        return field === undefined ? [] : [{ one, field }];
      }),
    );
    if (this.#sent['nobody']?.[0] !== 'yes') return found;
    for (const { one } of found) this.saidNone.add(one.bit);
    return [];
  }
}

/** More than anybody answers; the oldest are asked about again. */
const MOST = 1000;
const LONGEST = 200;

/** The settings with what was said to be none. */
export const withNone = (profile: Profile, bits: Iterable<string>): Profile => ({
  ...profile,
  notPersons: [...new Set([...(profile.notPersons ?? []), ...[...bits].map((bit) => bit.slice(0, LONGEST))])].slice(
    -MOST,
  ),
});

/**
 * The store for a request: what is about to be stored is looked at text by text, by the marks in the schemas, so that no
 * form can forget to ask. Refused changes leave nothing.
 */
export function askingAboutPersons(store: Store, about: AboutPersons): Store {
  const edited =
    <Value>(schema: z.core.$ZodType, edit: (stored: Value) => Value) =>
    (stored: Value): Value => {
      const after = edit(stored);
      about.check(schema, after, stored);
      return after;
    };
  const checked: Partial<Store> = {
    changeProfile: (edit) => store.changeProfile(edited(profileSchema, edit)),
    changeProcedure: (id, edit) => store.changeProcedure(id, edited(procedureSchema, edit)),
    changeList: (id, edit) => store.changeList(id, edited(listRecordSchema, edit)),
    changeGoal: (id, edit) => store.changeGoal(id, edited(goalSchema, edit)),
    recordList: (list) => {
      about.check(listRecordSchema, list);
      return store.recordList(list);
    },
    recordCase: (one) => {
      about.check(caseSchema, one);
      return store.recordCase(one);
    },
    recordCases: (list, cases) => {
      about.check(listRecordSchema, list);
      for (const one of cases) about.check(caseSchema, one);
      return store.recordCases(list, cases);
    },
    updateCase: (one, what, now) => {
      about.check(caseSchema, { ...one, history: [{ at: now, what }] });
      return store.updateCase(one, what, now);
    },
    updateCases: (cases, what, now, onto) => {
      if (onto) about.check(listRecordSchema, onto);
      const lines = typeof what === 'string' ? [what] : what;
      for (const one of cases)
        about.check(caseSchema, { ...one, history: lines.map((line) => ({ at: now, what: line })) });
      return store.updateCases(cases, what, now, onto);
    },
    recordImport: (held, batch, hash, now) => {
      // Cells are read by intake, which asks about them itself; what was typed beside them is the label.
      for (const { label } of batch.references) about.check(referenceSetSchema, { label });
      return store.recordImport(held, batch, hash, now);
    },
    startGoal: (goal) => {
      about.check(goalSchema, goal);
      return store.startGoal(goal);
    },
    saveReflection: (reflection) => {
      about.check(reflectionSchema, reflection);
      return store.saveReflection(reflection);
    },
    updateReflection: (reflection) => {
      about.check(reflectionSchema, reflection);
      return store.updateReflection(reflection);
    },
    saveReference: (set) => {
      about.check(referenceSetSchema, set);
      return store.saveReference(set);
    },
  };
  return new Proxy(store, {
    get: (target, verb) => Reflect.get(Object.hasOwn(checked, verb) ? checked : target, verb) as unknown,
  });
}
