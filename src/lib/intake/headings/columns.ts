import { named } from '../labels/plain-words';

/**
 * What a column of its own can hold, whatever the procedure, and the headings people give it: in English, and (from memory)
 * in German, French, Spanish, Italian and Portuguese.
 */
export const ownColumns = {
  case: named(`case_id, case, case no, case nr, case number, case code, own code, my code, case ref, code, id, no,
    nr, number, serial, serial no, sr no, sl no, s no, operation, operation no, operation id, op, op no,
    op nr, op number, op id, video, video no, video id, recording, recording id, surgery no, surgery id, fall, fall nr, fallnr, fallnummer, lfd nr, cas, cas no, numero de
    cas, caso, caso no, caso n, numero de caso, numero caso, numero do caso`),
  step: named(`step, step name, step label, phase, phase name, stage, part, label, task, activity, operative step,
    surgical step, surgical phase, schritt, op schritt, etape, paso, fase, etapa, passo`),
  start: named(`start, start_s, from, begin, begins, beginning, start time, started, starts, start at, time start,
    time in, onset, in, beginn, anfang, debut, inicio, inizio`),
  end: named(`end, end_s, to, until, till, stop, stops, finish, end time, stop time, ended, ends, time end, time
    out, out, ende, fin, fine, fim`),
  seconds: named(`seconds, secs, sec, duration, time, length, time taken, step time, elapsed, dur, minutes, mins, min,
    sekunden, dauer, duree, secondes, duracion, segundos, durata, secondi, duracao`),
  procedure: named(`procedure, procedure type, operation type, type of operation, surgery type, type of surgery,
    technique, eingriff, verfahren, intervention, procedimiento, intervento, procedura, procedimento`),
  date: named(`date, day, month, date of surgery, date of operation, surgery date, operation date, op date, dos,
    list date, datum, op datum, operationsdatum, date operatoire, date de l operation, fecha, fecha de cirugia, data
    intervento, data dell intervento, data da cirurgia, data cirurgia`),
  list: named(`list, list no, list nr, list number, list id, list name, session, session no, session id, theatre
    list, theater list, operating list, liste, lista`),
  position: named(`position, pos, place, slot, order, place in list, place in the list, position in list, position on
    list, list position, list order, order in list, order on list, reihenfolge, ordre, orden, ordine, ordem`),
  more: named(`anything else, anything else about this eye`),
  surgeon: named(`surgeon, surgeon id, surgeon code, surgeon name, operator, operating surgeon, operated by, performed
    by, done by, by, who, operateur, chirurg, chirurgien, cirujano, chirurgo, cirurgiao`),
  kind: named(`kind, kind of stretch, stretch kind, type`),
  reason: named(`reason, waiting reason, reason for waiting, cause, why`),
  event: named(`event, events, event kind, complication, complications, adverse event, adverse events,
    intraoperative complication, untoward event, komplikation, komplikationen, complicacion, complicaciones, complicazione,
    complicazioni, complicacao, complicacoes`),
  'event-step': named(`event_step, step of event, complication step`),
  'event-serious': named(`event_serious, serious, serious event`),
  'event-near-miss': named(`event_near_miss, near miss, near misses`),
  'event-noticed': named(`event_noticed, noticed, when noticed`),
  'event-reviewed-at': named(`event_reviewed_at`),
  'event-review': named(`event_review`),
  hands: named(`hands, whose hands, step hands`),
  'case-hands': named(`case_hands, hands whole case, hands for the case`),
  'returned-to': named(`returned_to, returned to, times returned to, returns, went_back, went back, gone back, times
    returned to, went back times`),
  energy: named(`energy, machine energy, phaco energy, ultrasound energy, us energy, cde, ept, cumulative energy`),
  'energy-unit': named(`energy_unit, unit of energy`),
} as const;

export type OwnColumn = keyof typeof ownColumns;

/** In words, for the page that shows what was understood. */
export const columnWords = {
  case: 'code of the case',
  step: 'step',
  start: 'start of the stretch',
  end: 'end of the stretch',
  seconds: 'length',
  procedure: 'procedure',
  date: 'date of the list',
  list: 'list',
  position: 'place in the list',
  more: 'letters for anything else about this eye',
  surgeon: 'surgeon (becomes me, R1, R2 …)',
  kind: 'step, waiting or protected part',
  reason: 'reason for waiting, or protected part',
  event: 'event',
  'event-step': 'step of the event',
  'event-serious': 'event serious',
  'event-near-miss': 'near miss',
  'event-noticed': 'when the event was noticed',
  'event-reviewed-at': 'day of the review',
  'event-review': 'review of the event',
  hands: 'whose hands',
  'case-hands': 'whose hands, whole case',
  'returned-to': 'times returned to',
  energy: 'machine energy',
  'energy-unit': 'unit of the energy',
} as const satisfies Record<OwnColumn, string>;
