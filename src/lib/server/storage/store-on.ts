import type { Copies } from '../second-folder/copies';
import { StorageError, type Store } from './port';
import type { Shelf } from './shelf';
import { backupVerbs } from './verbs/backups';
import { caseVerbs } from './verbs/cases';
import { damageVerbs } from './verbs/damage';
import { draftVerbs } from './verbs/drafts';
import { eraseVerbs } from './verbs/erase';
import { everythingVerbs } from './verbs/everything';
import { goalVerbs } from './verbs/goals';
import { heldImportVerbs } from './verbs/held-imports';
import { importVerbs } from './verbs/imports';
import { inventedVerbs } from './verbs/invented';
import { listVerbs } from './verbs/lists';
import { referenceVerbs } from './verbs/references';
import { reflectionVerbs } from './verbs/reflections';
import { settingsVerbs } from './verbs/settings';

/** The verbs of the job on a shelf of documents: the same ones whatever keeps the shelf. */
/** @param copies where the keeper can make some elsewhere */
export const storeOn = (shelf: Shelf, copies: Copies | null = null): Store => ({
  place: shelf.place,
  ...settingsVerbs(shelf),
  ...listVerbs(shelf),
  ...caseVerbs(shelf),
  ...eraseVerbs(shelf),
  ...heldImportVerbs(shelf),
  ...importVerbs(shelf),
  ...goalVerbs(shelf),
  ...reflectionVerbs(shelf),
  ...draftVerbs(shelf),
  ...referenceVerbs(shelf),
  ...everythingVerbs(shelf),
  ...damageVerbs(shelf),
  ...backupVerbs(shelf),
  ...inventedVerbs(shelf),
  together: (begin) => shelf.together(begin),
  secondFolder: async () => copies?.status() ?? null,
  chooseSecondFolder: async (folder) => {
    if (!copies) throw new StorageError('invalid', 'A record in memory is not copied. Nothing was changed.');
    await copies.choose(folder);
  },
  close: async () => {
    await copies?.close();
    await shelf.close();
  },
});
