import type { Scene } from './scene';
import { capsulorhexisScenes } from './scenes/capsulorhexis';
import { bagScenes } from './scenes/bag';
import { chamberEntryScenes } from './scenes/chamber-entry';
import { chipScenes } from './scenes/chips';
import { cortexScenes } from './scenes/cortex';
import { deliveryScenes } from './scenes/delivery';
import { disassemblyScenes } from './scenes/disassembly';
import { dividingScenes } from './scenes/dividing';
import { hydrodissectionScenes } from './scenes/hydrodissection';
import { incisionScenes } from './scenes/incision';
import { iolScenes } from './scenes/iol';
import { mainIncisionScenes } from './scenes/main-incision';
import { nucleusProlapseScenes } from './scenes/nucleus-prolapse';
import { ovdFillScenes } from './scenes/ovd-fill';
import { ovdRemovalScenes } from './scenes/ovd-removal';
import { scleralTunnelScenes } from './scenes/scleral-tunnel';
import { segmentScenes } from './scenes/segment';
import { ovdInsideScenes, sidePortScenes } from './scenes/side-port';
import { tearScenes } from './scenes/tear';
import { openedTunnelScenes } from './scenes/tunnel-later';
import { turningScenes } from './scenes/turning';
import { woundCheckScenes } from './scenes/wound-check';

/** Every drawing, in the order of an operation: phaco, then small-incision surgery. */
export const SCENES: readonly Scene[] = [
  ...sidePortScenes,
  ...incisionScenes,
  ...ovdInsideScenes,
  ...ovdFillScenes,
  ...mainIncisionScenes,
  ...capsulorhexisScenes,
  ...tearScenes,
  ...hydrodissectionScenes,
  ...disassemblyScenes,
  ...dividingScenes,
  ...segmentScenes,
  ...chipScenes,
  ...cortexScenes,
  ...bagScenes,
  ...iolScenes,
  ...ovdRemovalScenes,
  ...woundCheckScenes,
  ...scleralTunnelScenes,
  ...chamberEntryScenes,
  ...nucleusProlapseScenes,
  ...turningScenes,
  ...deliveryScenes,
  ...openedTunnelScenes,
];

const BY_ID = new Map(SCENES.map((scene) => [scene.id, scene]));

/** Checkpoints of other pages that ask for the same thing, and the drawing they share. */
export const SHARED: Readonly<Record<string, string>> = {
  'nucleus-through': 'disassembly-crack-through',
  'nucleus-turns': 'hydro-turn',
  'nucleus-last-piece': 'segment-last',
  'nucleus-chips': 'segment-chip-search',
  'polish-wrinkles': 'cortex-folds',
  'sport-blade-flat': 'side-port-plane',
  'sport-cannula': 'ovd-fill-tip-inside',
  'mhydro-tip-place': 'hydro-under-rim',
  'mrefill-bag-then-chamber': 'refill-whole-bag',
  'movd-behind-lens': 'ovd-out-behind',
};

/** The drawing of a checkpoint, an eye card or a rehearsal; none where there is no drawing of it. */
export const sceneOfId = (id: string): Scene | undefined => BY_ID.get(SHARED[id] ?? id);
