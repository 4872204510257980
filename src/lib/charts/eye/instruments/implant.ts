import { range } from '../pencil/curves';
import { spline } from '../pencil/curves';
import { add, times, turned, type Point } from '../pencil/points';
import type { Haptic } from '../pencil/marks';

/**
 * An implant from above, its front towards the reader. Right way up, each free end lies counter-clockwise of its root, so
 * that the lens is turned clockwise. This is the only maker of haptics: `turn` is an angle, never a mirror.
 */
const PX = 20;

type Place = { optic?: Point; turn?: number; /** mm; less than 1.6 while bent in. */ reach?: number };

/** The course of one haptic from its root to its free end; the other one is half a turn further. */
export function hapticCourse({ optic = [0, 0], turn = 0, reach = 1.62 }: Place = {}): Point[] {
  const spot = (r: number, angle: number): Point => add(optic, times(turned([0, -1], angle + turn), r * PX));
  const out = (share: number) => 3 + reach * share;
  return spline(
    [spot(2.96, 0), spot(out(0.3), -24), spot(out(0.71), -52), spot(out(0.96), -80), spot(out(1), -104)],
    8,
  );
}

/** Drawn as two close lines where it lies under the capsule, as one stroke where it can be seen. */
export const haptic = (place: Place, { covered = true, accent = false } = {}): Haptic => ({
  kind: 'haptic',
  course: hapticCourse(place),
  optic: place.optic ?? [0, 0],
  covered,
  accent,
});

/** A haptic on a course of its own, from its root to its free end. */
export const hapticAlong = (
  course: readonly Point[],
  optic: Point,
  { covered = false, accent = false } = {},
): Haptic => ({
  kind: 'haptic',
  course,
  optic,
  covered,
  accent,
});

export const opticOf = (centre: Point = [0, 0], radius = 3): Point[] =>
  range(0, 355, 71, (a) => add(centre, times(turned([0, -1], a), radius * PX)));
