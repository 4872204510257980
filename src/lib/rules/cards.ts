import type { EyeFit } from './fits';
import type { Source } from './types';

/** What eye cards and rehearsals have in common: whose they are, what they cite, and their short read. */
export type CardBase = {
  id: string;
  title: string;
  /** Procedures it is written for. */
  procedures: readonly string[];
  sources: readonly Source[];
  /** Role and date of the practising surgeon who read it; null until someone has. */
  reviewed: string | null;
  /** Texts that cite a source: without marks → with their marks. */
  marked: Readonly<Record<string, string>>;
  /** Markdown body, with its marks. */
  body: string;
};

/** What one kind of eye asks for, before the list and in it. No duration stands anywhere on it. */
export type EyeCard = CardBase & {
  /** The facts of an eye that call for the card. */
  eyes: readonly EyeFit[];
  /** What to have ready before the list. */
  ready: readonly string[];
  checkpoints: readonly { id: string; look: string; why: string }[];
  /** The one thing not to do. */
  never: string;
  stop: string;
  /** Checkpoints of the steps that do not hold in such an eye; the card stands in their place. */
  overrides: readonly string[];
};

/** What to say aloud with the team, at a desk, so that it need not be thought out when it happens. */
export type Rehearsal = CardBase & {
  /** Kinds of event after which it is offered. */
  events: readonly string[];
  /** How it shows first. */
  first: readonly string[];
  /** The first three actions, in order. */
  actions: readonly string[];
  never: readonly string[];
  call: string;
  /** What to have opened. */
  open: readonly string[];
};

/** The cards of a procedure. */
export const cardsFor = <Card extends CardBase>(cards: readonly Card[], procedureId: string): Card[] =>
  cards.filter(({ procedures }) => procedures.includes(procedureId));

/** The rehearsals offered after an event of this kind. */
export const rehearsalsAfter = (rehearsals: readonly Rehearsal[], procedureId: string, kind: string): Rehearsal[] =>
  cardsFor(rehearsals, procedureId).filter(({ events }) => events.includes(kind));
