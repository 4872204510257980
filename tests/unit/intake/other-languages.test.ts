import { describe, expect, it } from 'vitest';
import { read } from './reading';

// As a sheet may be headed; the words are from memory.
describe('the headings of a sheet in another language', () => {
  it.each([
    ['German', 'Fall,Datum,Liste,Operateur,Komplikation,Pupille,Kern'],
    ['French', 'cas,date opératoire,liste,chirurgien,complication,pupille,noyau'],
    ['Spanish', 'caso,fecha,lista,cirujano,complicación,pupila,núcleo'],
    ['Italian', 'caso,data intervento,lista,chirurgo,complicazione,pupilla,nucleo'],
    ['Portuguese', 'caso,data da cirurgia,lista,cirurgião,complicação,pupila,núcleo'],
  ])('are understood: %s', (_, headings) => {
    const rows = [3, 4, 5].map((day) => `M${day},2026-11-0${day},L${day},,none,small,hard,80,30`);
    const reading = read([`${headings},Rhexis,Hydrodissection`, ...rows].join('\n'));
    expect(reading.mapping.filter(({ how }) => how === 'none')).toEqual([]);
    expect(reading.cases.map(({ code }) => code)).toEqual(['M3', 'M4', 'M5']);
    expect(reading.cases.map(({ facts }) => facts)).toEqual(
      Array.from({ length: 3 }, () => ({ pupil: 'small', nucleus: 'hard' })),
    );
    expect(reading.cases.map(({ events }) => events)).toEqual([[], [], []]);
    expect(reading.lists.map(({ when }) => when)).toEqual(
      [3, 4, 5].map((day) => ({ kind: 'date', date: `2026-11-0${day}` })),
    );
  });
});
