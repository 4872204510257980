import type { Fields } from '../../src/lib/rooms/forms/fields';
import { newProcedureFromForm } from '../../src/lib/rooms/settings/procedures/new-procedure';
import type { Procedure } from '../../src/lib/model';
import { loadProcedures } from '../../src/lib/server/content/library';

/** A corneal graft in nine steps, as a surgeon would type it into the form of a new procedure. */
export const graftRows: readonly [label: string, starts: string, ends: string][] = [
  ['Support ring', 'the first suture of the ring is placed', 'the ring is tied'],
  ['Donor button', 'the donor cornea lies on the block', 'the button is punched'],
  ['Host trephination', 'the trephine touches the cornea', 'the trephine leaves the cornea'],
  ['Host button', 'the blade enters the chamber', 'the host button is out'],
  ['Filling the chamber', 'the cannula enters', 'the cannula leaves'],
  ['Cardinal sutures', 'the donor button lies on the eye', 'the fourth suture is tied'],
  ['Remaining sutures', 'the next needle touches the donor', 'the last knot is tied'],
  ['Burying knots', 'the first knot is turned', 'the last knot is turned'],
  ['Watertight check', 'the wound is dried', 'the drape comes off'],
];

export const graftForm = (over: Fields = {}): Fields => ({
  name: ['Corneal graft'],
  synonyms: ['graft, keratoplasty'],
  label: [...graftRows.map(([label]) => label), '', ''],
  starts: [...graftRows.map(([, starts]) => starts), '', ''],
  ends: [...graftRows.map(([, , ends]) => ends), '', ''],
  like: ['phaco'],
  facts: [],
  ...over,
});

export const graft: Procedure = newProcedureFromForm(graftForm(), loadProcedures()).procedure;
