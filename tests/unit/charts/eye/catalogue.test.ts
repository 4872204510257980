import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { sceneOfId, SCENES, SHARED } from '../../../../src/lib/charts/eye/catalogue';
import { eyeDrawing, eyeDrawings } from '../../../../src/lib/charts/eye/eye-drawings.server';

type Front = { step: string; checkpoints: { id: string }[] };
const pages = ['phaco', 'sics'].flatMap((procedure) =>
  readdirSync(`content/checkpoints/${procedure}`).map((file) => {
    const front = readFileSync(`content/checkpoints/${procedure}/${file}`, 'utf8').split('---')[1] ?? '';
    return { name: `${procedure}/${file}`, ids: (parse(front) as Front).checkpoints.map(({ id }) => id) };
  }),
);
const checkpoints = new Set(pages.flatMap(({ ids }) => ids));

it('has ids that are used once, and safe as file names', () => {
  const ids = SCENES.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
});

it('draws checkpoints that exist, eye cards and rehearsals', () => {
  expect(pages).toHaveLength(31);
  for (const { id } of SCENES) if (!/^(eye|rehearsal)-/.test(id)) expect(checkpoints, id).toContain(id);
});

it('shares drawings between checkpoints that exist', () => {
  for (const [id, scene] of Object.entries(SHARED)) {
    expect(checkpoints, id).toContain(id);
    expect(sceneOfId(id)?.id).toBe(scene);
  }
});

it('draws something of every page, and no drawing twice on one', () => {
  for (const { name, ids } of pages) {
    const drawn = ids.flatMap((id) => sceneOfId(id)?.id ?? []);
    expect(drawn.length, name).toBeGreaterThan(0);
    expect(new Set(drawn).size, name).toBe(drawn.length);
  }
});

const cardIds = (folder: string) =>
  readdirSync(`content/${folder}`).map((file) => file.replace(/^\d+-/, '').replace(/\.md$/, ''));

it('draws every eye card and every rehearsal', () => {
  const cards = [...cardIds('eyes').map((id) => `eye-${id}`), ...cardIds('rehearsals').map((id) => `rehearsal-${id}`)];
  expect(cards).toHaveLength(26);
  expect(cards.filter((id) => !sceneOfId(id))).toEqual([]);
  const named = SCENES.map(({ id }) => id).filter((id) => /^(eye|rehearsal)-/.test(id));
  expect(named.filter((id) => !cards.includes(id))).toEqual([]);
});

it('gives a drawing by id, and none for what is not drawn', () => {
  expect(sceneOfId('rhexis-regrasp')?.title).toBe('Taken again, close to the point where it tears');
  expect(eyeDrawing('rhexis-regrasp')).toContain('<svg');
  expect(eyeDrawing('rhexis-regrasp', { small: true })).not.toBe(eyeDrawing('rhexis-regrasp'));
  expect(eyeDrawing('of-nothing')).toBeNull();
  expect(Object.keys(eyeDrawings(['rhexis-regrasp', 'of-nothing', 'hydro-press']))).toEqual([
    'rhexis-regrasp',
    'hydro-press',
  ]);
});
