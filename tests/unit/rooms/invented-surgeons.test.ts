import { expect, it } from 'vitest';
import camp from '../../../demo-data/camp.json';
import consultant from '../../../demo-data/consultant.json';
import fellow from '../../../demo-data/fellow.json';
import { everythingOfCamp, everythingOfConsultant, everythingOfFellow } from '../../../demo-data/records';

// Goals and results in them are reckoned by the program: where it reckons otherwise, `npm run demo` makes them anew.
it.each([
  ['fellow', fellow, everythingOfFellow],
  ['consultant', consultant, everythingOfConsultant],
  ['camp', camp, everythingOfCamp],
] as const)('the %s is what the program makes today', (_, kept, make) => {
  expect(JSON.parse(JSON.stringify(make()))).toEqual(kept);
});
