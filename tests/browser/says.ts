import { expect, type Page } from 'playwright/test';
import type { Surgeon } from './surgeons';

type Invented = Exclude<Surgeon, 'empty'>;

/** What each room says in each invented record: enough to know that it is this record, and that it says so in words. */
const SAYS: Record<Invented, Record<string, RegExp>> = {
  fellow: {
    now: /Cortex aspiration: 13 of 20 counted, over 3 of 4 lists\.\s+4 cases wait for your review\./,
    cases: /171 cases in 32 lists\./,
    'list-facts': /here of \d+ operated/,
    choose: /Suggested: capsulorhexis\.[\s\S]*13 cases of the running window are not in it/,
    'choose-seconds': /Nucleus removal holds the most seconds\./,
    step: /In the reference set the median is/,
    plan: /Expected range: .* It is shown on this page only\./,
    'before-a-list': /Cortex aspiration[\s\S]*If the port is not in view, then I let go and find it first\./,
    reflect: /4 cases wait for review\.\s+Watch first, and answer before the times are shown\./,
    'after-twenty': /Hidden until the window is full[^.]*\. So far 13 of 20 cases, 3 of 4 lists\./,
    'after-twenty-past':
      /Shorter, beyond the rest of the operation[\s\S]*Does not say[\s\S]*Did it last\?[\s\S]*Lasted\./,
    report: /one practice goal/,
    settings: /Three experienced surgeons of the unit: 24 cases of 3 surgeons/,
  },
  consultant: {
    now: /No step stands out\.\s+Your steps vary[^.]*\. A month without a goal is a good answer\./,
    cases: /600 cases/,
    choose: /No step stands out\.\s+Your steps vary about as much as each other\./,
    'before-a-list': /three things to keep in mind on any list/,
    reflect: /No case waits for a reflection\.\s+Anything you saw can be written here at any time\./,
    'after-twenty': /No goal is running\./,
    step: /Events were not asked|Nothing can be said about safety/,
  },
  camp: {
    now: /Not enough yet\.\s+18 cases count/,
    cases: /18 cases in 3 lists[\s\S]*6 here of 38 operated/,
    'list-facts': /6 here of \d+ operated, 6 timed\./,
    choose: /Not enough yet\.\s+18 cases count\. A suggestion needs 20 from at least 4 lists\./,
    step: /Scleral tunnel|Bridle suture|Peritomy|Nucleus/,
    'before-a-list': /three things to keep in mind on any list/,
  },
};

/** The room that is open says what it must of this record, in words, and no broken number. */
export async function says(page: Page, surgeon: Invented, room: string): Promise<void> {
  const main = () => page.locator('main').innerText();
  await expect.soft.poll(main, room).toMatch(SAYS[surgeon][room] ?? /./);
  const said = await main();
  expect.soft(said.length, room).toBeGreaterThan(80);
  expect.soft(/NaN|undefined|Infinity|\[object|null\b/.exec(said)?.[0], room).toBeUndefined();
}
