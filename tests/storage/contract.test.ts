import { describe } from 'vitest';
import { casesContract } from './contract/cases';
import { eraseContract } from './contract/erase';
import { goalsContract } from './contract/goals';
import { importsContract } from './contract/imports';
import { inventedContract } from './contract/invented';
import { lastChangeContract } from './contract/last-change';
import { smallRecordsContract } from './contract/small-records';
import { togetherContract } from './contract/together';
import { wholeRecordContract } from './contract/whole-record';
import { adapters } from './stores';

// What every adapter owes the rest of the program, whatever it keeps the record in.
describe.each(adapters)('the store, $name', ({ open }) => {
  casesContract(open);
  importsContract(open);
  lastChangeContract(open);
  goalsContract(open);
  smallRecordsContract(open);
  togetherContract(open);
  eraseContract(open);
  wholeRecordContract(open);
  inventedContract(open);
});
