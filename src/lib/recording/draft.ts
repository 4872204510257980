import { ANSWERS, HANDS, type Edit, type MarkedEvent } from './edit';
import type { Log } from './marks';

/** A recording as it is known again: never by its name. */
export type KnownRecording = { size: number; fingerprint: string; duration: number | null };

/** The timing of one case on its way: what is kept at every mark, and found again after a crash or on another day. */
export type TimingDraft = {
  format: 'next-twenty/timing/1';
  code: string;
  log: Log;
  recording: KnownRecording | null;
  /** Where the recording stood, seconds. */
  at: number;
};

export const newDraft = (code: string): TimingDraft => ({
  format: 'next-twenty/timing/1',
  code,
  log: { edits: [], holds: 0 },
  recording: null,
  at: 0,
});

/** The most edits one operation can need, with room: a slip of a program must not fill a disk. */
const MOST_EDITS = 5000;
const A_DAY = 86_400;

type Loose = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Loose =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isAt = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= A_DAY;
const isCount = (value: unknown): value is number => Number.isInteger(value) && (value as number) >= 0;
const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= 200;
const isTextOrNull = (value: unknown): value is string | null => value === null || isText(value);
const isOneOf = <T extends string>(all: readonly T[], value: unknown): value is T => all.some((each) => each === value);
const isKind = (value: unknown) => isOneOf(['step', 'waiting', 'protected'], value);

/**
 * A kept draft; `null` for a text that is none. Read by hand and not by a schema, because the page reads its own copy too
 * and no schema library goes to the browser.
 */
export function readTimingDraft(text: string | null): TimingDraft | null {
  const value = parsed(text);
  if (!isRecord(value) || value.format !== 'next-twenty/timing/1' || !isText(value.code)) return null;
  const log = readLog(value.log);
  const recording = readRecording(value.recording);
  if (!log || recording === undefined || !isAt(value.at)) return null;
  return { format: 'next-twenty/timing/1', code: value.code, log, recording, at: value.at };
}

function parsed(text: string | null): unknown {
  try {
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

function readLog(value: unknown): Log | null {
  if (!isRecord(value) || !Array.isArray(value.edits) || !isCount(value.holds)) return null;
  const edits = value.edits.filter(isEdit);
  if (edits.length !== value.edits.length || edits.length > MOST_EDITS || value.holds > edits.length) return null;
  return { edits, holds: value.holds };
}

function readRecording(value: unknown): KnownRecording | null | undefined {
  if (value === null) return null;
  if (!isRecord(value)) return undefined;
  const { size, fingerprint, duration } = value;
  if (!isCount(size) || size === 0 || typeof fingerprint !== 'string' || !/^[0-9a-f]{64}$/.test(fingerprint))
    return undefined;
  if (duration !== null && !isAt(duration)) return undefined;
  return { size, fingerprint, duration };
}

function isEvent(value: unknown): value is MarkedEvent {
  return (
    isRecord(value) &&
    isText(value.kind) &&
    value.kind !== '' &&
    isTextOrNull(value.stepId) &&
    typeof value.serious === 'boolean' &&
    typeof value.nearMiss === 'boolean'
  );
}

function isEdit(value: unknown): value is Edit {
  if (!isRecord(value)) return false;
  switch (value.do) {
    case 'open':
      return isKind(value.kind) && isTextOrNull(value.stepId) && isTextOrNull(value.reason) && isAt(value.at);
    case 'typed':
      return (
        isKind(value.kind) &&
        isTextOrNull(value.stepId) &&
        isTextOrNull(value.reason) &&
        isAt(value.from) &&
        isAt(value.to)
      );
    case 'close':
      return isCount(value.row) && isAt(value.at);
    case 'move':
      return isCount(value.row) && isOneOf(['from', 'to'], value.edge) && isAt(value.at);
    case 'reason':
      return isCount(value.row) && isTextOrNull(value.reason);
    case 'remove':
      return isCount(value.row);
    case 'seen':
      return isText(value.partId) && (value.seen === null || typeof value.seen === 'boolean');
    case 'event':
      return isEvent(value.event);
    case 'no-event':
      return isCount(value.event);
    case 'hands':
      return isText(value.stepId) && isOneOf(HANDS, value.hands);
    case 'answer':
      return isText(value.checkpointId) && (value.answer === null || isOneOf(ANSWERS, value.answer));
    default:
      return false;
  }
}
