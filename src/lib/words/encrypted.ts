/** What encrypting the folder means for whoever forgets. */
export const LOST_PASSPHRASE =
  'If you encrypt the folder and lose the passphrase, nobody can read this record, nor its backups and copies: there is no second way in. Exports are not encrypted; keep one in a safe place.';

/** What stands beside the encrypted files. */
export const STAYS_PLAIN =
  'Only passphrase.json and the log of faults stay plain: neither holds anything of the record. Never delete passphrase.json: without it the passphrase opens nothing. What was on the disk before may still be found there with special tools, and copies made by hand stay as they are.';
