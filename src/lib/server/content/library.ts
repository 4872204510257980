import type { Procedure } from '../../model';
import type { EyeCard, Rehearsal } from '../../rules/cards';
import type { Guidance } from '../../rules/types';
import { readCautions, type Caution, type CautionName } from './cautions';
import {
  cautionFiles,
  checkpointFiles,
  eyeCardFiles,
  methodFiles,
  procedureFiles,
  rehearsalFiles,
} from './content-files';
import { readEyeCards } from './eye-cards';
import { readGuidance } from './guidance';
import { readMethodPages, type MethodPage } from './method-pages';
import { readProcedures } from './procedures';
import { readRehearsals } from './rehearsals';

/** Every caller shares one copy, so it is frozen: a change by one room would show in another. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(frozen);
    Object.freeze(value);
  }
  return value;
}

// Read when the module loads, not on first use: a bad file then stops the build, which loads every route once.
const procedures = frozen(readProcedures(procedureFiles));
const guidance = frozen(readGuidance(checkpointFiles, procedures));
const eyeCards = frozen(readEyeCards(eyeCardFiles, procedures, guidance));
const rehearsals = frozen(readRehearsals(rehearsalFiles, procedures));
const cautions = frozen(readCautions(cautionFiles));
const methodPages = frozen(readMethodPages(methodFiles));

/** The shipped procedures, frozen. */
export const loadProcedures = (): Procedure[] => procedures;

/** The written guidance, a page a step, frozen. */
export const loadGuidance = (): Guidance[] => guidance;

/** What each kind of eye asks for, frozen. */
export const loadEyeCards = (): EyeCard[] => eyeCards;

/** What to rehearse with the team, frozen. */
export const loadRehearsals = (): Rehearsal[] => rehearsals;

/** The standing texts by name, frozen. */
export const loadCautions = (): Record<CautionName, Caution> => cautions;

/** How each number is made, a page a number, frozen. */
export const loadMethodPages = (): MethodPage[] => methodPages;
