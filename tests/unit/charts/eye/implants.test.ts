import { describe, expect, it } from 'vitest';
import { SCENES } from '../../../../src/lib/charts/eye/catalogue';
import { hapticCourse } from '../../../../src/lib/charts/eye/instruments/implant';
import type { Haptic } from '../../../../src/lib/charts/eye/pencil/marks';
import type { Point } from '../../../../src/lib/charts/eye/pencil/points';
import { itemAt } from '../../../../src/lib/item-at';
import { marksOf, type Hand } from '../../../../src/lib/charts/eye/scene';

/**
 * Common practice: a lens with open haptics is right way up when, seen from in front, it is turned clockwise, so that each
 * free end trails behind and lies counter-clockwise of its root. A mirrored lens is one that lies upside down.
 */
const haptics = SCENES.flatMap((scene) =>
  (['right', 'left'] as const).flatMap((hand: Hand) =>
    marksOf(scene, hand)
      .filter((mark): mark is Haptic => mark.kind === 'haptic')
      .map((haptic) => [scene.id, hand, haptic] as const),
  ),
);

/**
 * How far round the optic a haptic's free end lies from its root, in degrees, clockwise positive. Right way up it is
 * negative.
 */
function hapticTurn({ course, optic }: Pick<Haptic, 'course' | 'optic'>): number {
  const angle = ([x, y]: Point) => Math.atan2(y - optic[1], x - optic[0]);
  let sum = 0;
  for (let i = 1; i < course.length; i++) {
    const step = ((angle(itemAt(course, i)) - angle(itemAt(course, i - 1))) * 180) / Math.PI;
    sum += step > 180 ? step - 360 : step < -180 ? step + 360 : step;
  }
  return sum;
}

describe('implants', () => {
  it('are drawn, for both hands', () => {
    expect(haptics.length).toBeGreaterThanOrEqual(8);
    expect(haptics.filter(([, hand]) => hand === 'left')).toHaveLength(haptics.length / 2);
  });

  it.each(haptics)('%s, %s hand: no haptic is turned over', (_, __, haptic) => {
    expect(hapticTurn(haptic)).toBeLessThan(-8);
  });

  it('would be told if they were', () => {
    const course = hapticCourse();
    expect(hapticTurn({ course, optic: [0, 0] })).toBeCloseTo(-104, 0);
    expect(hapticTurn({ course: course.map(([x, y]) => [-x, y]), optic: [0, 0] })).toBeCloseTo(104, 0);
  });
});
