import { describe, expect, it } from 'vitest';
import { SCENES } from '../../../../src/lib/charts/eye/catalogue';
import type { Hand, Scene } from '../../../../src/lib/charts/eye/scene';
import { svgOf } from '../../../../src/lib/charts/eye/svg';
import look from '../../../../src/lib/charts/EyeScene.svelte?raw';

const hands: readonly Hand[] = ['right', 'left'];
const forms = hands.flatMap((hand) => [false, true].map((small) => ({ hand, small })));
const each = SCENES.map((scene) => [scene.id, scene] as const);

/** The classes that the component gives a look to. */
const known = new Set([...look.matchAll(/\.(es-[a-z-]+|eye-small)\b/g)].map(([, name]) => name).concat('eye'));

/** Each is drawn once a form: most of the time goes into drawing, and below it is shown that a second one is the same. */
const drawings = new Map<string, string>();
function drawn(scene: Scene, { hand = 'right', small = false }: { hand?: Hand; small?: boolean } = {}): string {
  const key = `${scene.id} ${hand} ${small}`;
  const svg = drawings.get(key) ?? svgOf(scene, { hand, small });
  drawings.set(key, svg);
  return svg;
}

describe.each(each)('%s', (_, scene) => {
  it.each(forms)('draws, $hand hand, small: $small', ({ hand, small }) => {
    const svg = drawn(scene, { hand, small });
    expect(svg).toMatch(/^<svg [^>]*viewBox="-?[\d.]+ -?[\d.]+ [\d.]+ [\d.]+"[^>]*>.*<\/svg>$/s);
    expect(svg).not.toMatch(/NaN|undefined|Infinity|null/);
    expect((svg.match(/<path /g) ?? []).length).toBeGreaterThan(5);
    expect(svg).not.toMatch(/d=""/);
    expect(svg).not.toMatch(/style=|fill=|stroke=|#[0-9a-f]{3}|rgb\(|<script|<style/i);
    for (const [, names] of svg.matchAll(/class="([^"]+)"/g))
      for (const name of names!.split(' ')) expect(known, name).toContain(name);
    expect(svg.length).toBeLessThan(small ? 20_000 : 28_000);
  });

  it('says what it is, and names the sides as they are for each hand', () => {
    for (const hand of hands) {
      const svg = drawn(scene, { hand });
      const title = /<title id="([^"]+)">([^<]{12,90})<\/title>/.exec(svg);
      const description = /<desc id="([^"]+)">([^<]{80,700})<\/desc>/.exec(svg);
      expect(title, 'title').not.toBeNull();
      expect(description, 'description').not.toBeNull();
      expect(svg).toContain(`aria-labelledby="${title![1]}"`);
      expect(svg).toContain(`aria-describedby="${description![1]}"`);
      expect(svg).not.toMatch(/[{}]/);
      expect(scene.title).not.toMatch(/\.$/);
    }
  });

  it('has words in the large form only', () => {
    expect(drawn(scene)).toContain('<text');
    expect(drawn(scene)).toContain('es-strong');
    expect(drawn(scene, { small: true })).not.toMatch(/<text|es-leader/);
  });

  it('points out something in the accent, in both forms', () => {
    for (const small of [false, true]) expect(drawn(scene, { small })).toMatch(/es-(accent|accentline|mark)\b/);
  });

  it('uses the words of the trade', () => {
    const words = [
      scene.title,
      scene.description,
      ...[...drawn(scene).matchAll(/<tspan[^>]*>([^<]+)/g)].map(([, t]) => t),
    ];
    expect(words.join(' ')).not.toMatch(/\bgel\b|red glow|lid holder|loop in the bag|\bsmoothly\b/i);
  });
});

it('keeps ids apart where one drawing stands twice', () => {
  const scene = SCENES[0]!;
  const ids = (svg: string) => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
  const both = [...ids(svgOf(scene)), ...ids(svgOf(scene, { key: 'b-' }))];
  expect(new Set(both).size).toBe(4);
  expect(ids(svgOf(scene, { decorative: true }))).toEqual([]);
  expect(svgOf(scene, { decorative: true })).toContain('aria-hidden="true"');
});

it('draws the same each time', () => {
  for (const scene of SCENES) expect(svgOf(scene)).toBe(drawn(scene));
});
