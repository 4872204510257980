import { sceneOfId } from './catalogue';
import { svgOf, type SvgOptions } from './svg';

/**
 * Drawings for a page, made on the server: the file's name keeps the module out of the browser (Kit refuses to ship it).
 * A page's `load` returns what these give, and `EyeScene.svelte` shows it.
 *
 *     import { eyeDrawing } from '$lib/charts/eye/eye-drawings.server';
 *     return { drawing: eyeDrawing('rhexis-regrasp') };              // string | null
 *
 *     {#if data.drawing}<EyeScene svg={data.drawing} />{/if}
 */
const made = new Map<string, string>();

/**
 * @param id of a checkpoint (as in content/checkpoints), an eye card (`eye-…`) or a rehearsal (`rehearsal-…`)
 * @returns an `<svg>`, 4 to 20 kB, or `null` where there is no drawing of this
 */
export function eyeDrawing(id: string, options: SvgOptions = {}): string | null {
  const scene = sceneOfId(id);
  if (!scene) return null;
  const { small = false, hand = 'right', key = '', decorative = false } = options;
  const name = [id, small, hand, key, decorative].join('/');
  const before = made.get(name);
  if (before !== undefined) return before;
  const svg = svgOf(scene, options);
  made.set(name, svg);
  return svg;
}

/** Those of several ids that have a drawing, by id. */
export function eyeDrawings(ids: readonly string[], options: SvgOptions = {}): Record<string, string> {
  return Object.fromEntries(
    ids.flatMap((id) => {
      const svg = eyeDrawing(id, options);
      return svg === null ? [] : [[id, svg]];
    }),
  );
}
