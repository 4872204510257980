import { describe, expect, it } from 'vitest';
import { backupsView, monthsFromForm, secondFolderView } from '../../../src/lib/rooms/settings/backups/backups-view';

const when = (iso: string) => `on ${iso}`;

describe('the screen of backups', () => {
  it('says what changed, and counts what differs since', () => {
    const files = [
      { name: 'cases/1', holds: 'cases 1 to 1,000', since: { added: 2, changed: 0, removed: 1 } },
      { name: 'profile', holds: 'the settings', since: { added: 0, changed: 1, removed: 0 } },
      { name: 'lists', holds: 'lists', problem: 'It cannot be read.' },
    ];
    const view = backupsView(
      [
        { at: 'C', holds: ['numbers'], numbersOnly: true },
        { at: 'B', holds: ['a', 'b', 'c', 'd'], numbersOnly: false },
        { at: 'A', holds: [], numbersOnly: true },
      ],
      { at: 'A', files },
      when,
    );
    expect(view.moments).toEqual([
      {
        at: 'C',
        when: 'on C',
        what: 'When something new was given a number, such as a file that was looked at; nothing that stood here was changed',
        chosen: false,
      },
      { at: 'B', when: 'on B', what: 'When something changed in a; b; and 2 other files', chosen: false },
      { at: 'A', when: 'on A', what: '', chosen: true },
    ]);
    expect(view.chosen?.files.map(({ since }) => since)).toEqual([
      '2 added, 1 removed since',
      'changed since',
      'It cannot be read.',
    ]);
    expect(view.chosen?.canComeBack).toBe(false);
  });

  it('takes months from 1 to 600', () => {
    expect(monthsFromForm({ months: ['3'] })).toEqual({ months: 3, errors: [] });
    for (const text of ['', '0', '601', '1.5', 'x', '1e2'])
      expect(monthsFromForm({ months: [text] }).errors).toHaveLength(1);
  });

  it('says of the second folder when it was copied, what stands in the way, and what is still in there', () => {
    const second = { folder: '/b', copiedAt: 'T', problem: null, toForget: 0, encrypted: false, otherForm: 0 };
    const said = (but: Partial<Parameters<typeof secondFolderView>[0]>) =>
      secondFolderView({ ...second, ...but }, when);
    expect(secondFolderView(null, when)).toEqual({ folder: '', lines: [], encrypted: false });
    expect(said({}).lines).toEqual(['Last copied on on T.']);
    expect(said({ copiedAt: null, problem: 'Full.', toForget: 2 }).lines).toEqual([
      'Full.',
      'No copy has been made since this program was started.',
      '2 erased cases may still be in copies there. The next copy takes them out.',
    ]);
    expect(said({ encrypted: true })).toMatchObject({ encrypted: true });
    expect(said({ encrypted: true, otherForm: 1 })).toMatchObject({
      encrypted: false,
      lines: ['Last copied on on T.', '1 copy there is not encrypted with the passphrase of today.'],
    });
    expect(said({ otherForm: 2 }).lines[1]).toBe('2 copies there are still encrypted.');
  });
});
