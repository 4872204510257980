import { redirect, type RequestEvent } from '@sveltejs/kit';
import { countAgain, keepAsItIs, leaveOut, liftKeep } from '$lib/rooms/cases/case-change';
import { partsOfGoals } from '$lib/rooms/cases/erase-words';
import { textOf } from '$lib/rooms/forms/fields';
import { timesWereSeen } from '$lib/rooms/goals/hidden-times';
import { eraseRefused, isLeftOutReason, leaveOutRefused } from '$lib/rooms/cases/leave-out-rules';
import { eraseRefusedWords, leaveOutRefusedWords } from '$lib/words/may-not';
import { attempt } from '$lib/server/attempt';
import { asked, refused, store } from './change-case.server';

/** Leaving out, keeping as it is, erasing. */
export const dutyActions = {
  leaveOut: async (event: RequestEvent) => {
    const { fields, one, record, hidden, now } = await asked(event);
    const reason = textOf(fields, 'reason');
    if (!isLeftOutReason(reason))
      return refused('leave', fields, [{ field: 'reason', message: 'Choose a reason from the list.' }]);
    const why = leaveOutRefused(one, reason, record);
    if (why) return refused('leave', fields, [{ field: 'reason', message: leaveOutRefusedWords(why) }]);
    return store(event, 'leave', fields, leaveOut(one, reason, timesWereSeen(one, hidden), now), 'left-out');
  },

  countAgain: async (event: RequestEvent) => {
    const { fields, one } = await asked(event);
    return store(event, 'leave', fields, countAgain(one), 'counted');
  },

  keep: async (event: RequestEvent) => {
    const { fields, one, now } = await asked(event);
    const why = textOf(fields, 'why');
    if (why === '')
      return refused('keep', fields, [{ field: 'why', message: 'Say why, in a word: complaint, claim, inquiry.' }]);
    return store(event, 'keep', fields, keepAsItIs(one, why, now), 'kept-as-it-is');
  },

  lift: async (event: RequestEvent) => {
    const { fields, one } = await asked(event);
    const why = textOf(fields, 'why');
    if (why === '') return refused('keep', fields, [{ field: 'why', message: 'Say why it may be changed again.' }]);
    return store(event, 'keep', fields, liftKeep(one, why), 'lifted');
  },

  erase: async (event: RequestEvent) => {
    const { fields, one, record } = await asked(event);
    if (textOf(fields, 'confirm') !== one.code)
      return refused('erase', fields, [
        { field: 'confirm', message: `Type the code ${one.code} to confirm. Nothing was erased.` },
      ]);
    const first = eraseRefused(one, record);
    if (first) return refused('erase', fields, [{ field: 'confirm', message: eraseRefusedWords(first) }]);
    const { refused: why } = await attempt('confirm', () =>
      event.locals.store.eraseCase(one.id, event.locals.now, partsOfGoals(one, record)),
    );
    if (why) return refused('erase', fields, [why], 409);
    redirect(303, '/cases?said=erased');
  },
};
