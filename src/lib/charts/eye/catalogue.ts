import type { Scene } from './scene';
import { capsulorhexisScenes } from './scenes/capsulorhexis';
import { bagScenes } from './scenes/bag';
import { chamberEntryScenes } from './scenes/chamber-entry';
import { chipScenes } from './scenes/chips';
import { cortexHoldScenes } from './scenes/cortex-hold';
import { trailingHapticScenes } from './scenes/trailing-haptic';
import { tunnelDepthScenes } from './scenes/tunnel-depth';
import { throughTunnelScenes } from './scenes/through-tunnel';
import { cortexScenes } from './scenes/cortex';
import { deliveryScenes } from './scenes/delivery';
import { disassemblyScenes } from './scenes/disassembly';
import { dividingScenes } from './scenes/dividing';
import { eventsInSection } from './scenes/events-in-section';
import { flowScenes } from './scenes/flow';
import { smallIncisionMore } from './scenes/small-incision-more';
import { groundOfTunnel } from './scenes/ground-of-tunnel';
import { capsuleEvents } from './scenes/capsule-events';
import { woundEvents } from './scenes/wound-events';
import { tinyNucleus } from './scenes/nucleus-tiny';
import { whiteLens } from './scenes/white-lens';
import { kindsOfSclera } from './scenes/kinds-of-sclera';
import { outerWall } from './scenes/outer-wall';
import { woundsFromAbove } from './scenes/wounds-from-above';
import { layersAtLimbus } from './scenes/layers-at-limbus';
import { hydrodissectionScenes } from './scenes/hydrodissection';
import { incisionScenes } from './scenes/incision';
import { iolScenes } from './scenes/iol';
import { kindsOfChamber } from './scenes/kinds-of-chamber';
import { kindsOfLens } from './scenes/kinds-of-lens';
import { kindsOfPupil } from './scenes/kinds-of-pupil';
import { mainIncisionScenes } from './scenes/main-incision';
import { nucleusProlapseScenes } from './scenes/nucleus-prolapse';
import { ovdFillScenes } from './scenes/ovd-fill';
import { ovdRemovalScenes } from './scenes/ovd-removal';
import { rupturedCapsuleScenes } from './scenes/ruptured-capsule';
import { scleralTunnelScenes } from './scenes/scleral-tunnel';
import { segmentScenes } from './scenes/segment';
import { ovdInsideScenes, sidePortScenes } from './scenes/side-port';
import { tearScenes } from './scenes/tear';
import { tunnelEvents } from './scenes/tunnel-events';
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
  ...cortexHoldScenes,
  ...bagScenes,
  ...iolScenes,
  ...trailingHapticScenes,
  ...ovdRemovalScenes,
  ...woundCheckScenes,
  ...scleralTunnelScenes,
  ...tunnelDepthScenes,
  ...chamberEntryScenes,
  ...nucleusProlapseScenes,
  ...turningScenes,
  ...throughTunnelScenes,
  ...deliveryScenes,
  ...openedTunnelScenes,
  ...kindsOfLens,
  ...whiteLens,
  ...kindsOfPupil,
  ...kindsOfChamber,
  ...rupturedCapsuleScenes,
  ...capsuleEvents,
  ...woundEvents,
  ...eventsInSection,
  ...tinyNucleus,
  ...tunnelEvents,
  ...outerWall,
  ...groundOfTunnel,
  ...kindsOfSclera,
  ...woundsFromAbove,
  ...layersAtLimbus,
  ...flowScenes,
  ...smallIncisionMore,
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
  'side-port-site': 'incision-spacing',
  'incision-tunnel-length': 'main-incision-inner-lip',
  'ovd-fill-flat-dome': 'rhexis-deep',
  'sport-aqueous-out': 'ovd-fill-far-side',
  'cot-tear-fold': 'rhexis-fold',
  'cot-white': 'rhexis-white',
  'mhydro-down-again': 'hydro-press',
  'nucleus-to-the-middle': 'segment-safe-place',
  'mcortex-free-end': 'cortex-under-rim',
  'miol-second-haptic': 'iol-trailing-loop',
  'miol-proof': 'iol-rim-all-round',
  'entry-pockets-open': 'tunnel-pockets',
  'disassembly-first-energy': 'nucleus-tip-cleared',
  'mwound-formed-by-port': 'mrefill-through-port',
  'movd-via-port': 'mrefill-through-port',
  // Drawings of eye cards and rehearsals that show what a checkpoint asks for.
  'hydro-polar': 'eye-polar',
  'mhydro-polar': 'eye-polar',
  'disassembly-polar': 'eye-polar',
  'ovd-fill-floppy': 'eye-floppy-iris',
  'sport-floppy': 'eye-floppy-iris',
  'segment-floppy': 'eye-floppy-iris',
  'nucleus-cushion': 'eye-nucleus-brown',
  'nucleus-deep-block': 'eye-deep',
  'rhexis-zonules': 'eye-zonules-loose',
  'main-incision-mark': 'eye-toric',
  'iol-axis': 'eye-toric',
  'ovd-out-toric': 'eye-toric',
  'miol-toric': 'eye-toric',
  'delivery-width': 'eye-nucleus-huge',
  'prolapse-pupil': 'eye-pupil-small',
  'rhexis-rescue': 'rehearsal-tear-out',
  'cot-rescue': 'rehearsal-tear-out',
  'refill-pressure-behind': 'rehearsal-suprachoroidal',
  'wound-check-burn': 'rehearsal-leak',
  'mwound-descemet': 'rehearsal-descemet',
};

/** The drawing of a checkpoint, an eye card or a rehearsal; none where there is no drawing of it. */
export const sceneOfId = (id: string): Scene | undefined => BY_ID.get(SHARED[id] ?? id);
