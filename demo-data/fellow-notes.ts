/** What the invented fellow wrote after review, by step of the goal; one a list, each only once. */
export const FELLOW_NOTES: Record<string, readonly { saw: string; willTry: string; tags: string[] }[]> = {
  capsulorhexis: [
    {
      saw: 'In two cases the lens began to bulge before the second half of the circle, and I went on pulling.\n\n- the edge drifted out at once\n- after the refill it came back by itself',
      willTry: 'Refill at the half, before I need to.',
      tags: ['refill'],
    },
    {
      saw: 'I let go more often. It felt like more work and looked calmer on the recording.',
      willTry: 'Take the flap nearer to the point of the tear.',
      tags: ['regrasp'],
    },
    {
      saw: 'No red reflex in the white lens; I had not asked for dye. The start took three tries.',
      willTry: '**Dye first** in every eye without a red reflex.',
      tags: ['view', 'dye'],
    },
    {
      saw: 'The first puncture was off centre and the whole circle followed it.',
      willTry: 'Look at the pupil margin, then puncture.',
      tags: ['start'],
    },
    {
      saw: 'A good list: flap folded each time, refill before the half in four of five.',
      willTry: 'The same again.',
      tags: ['refill'],
    },
    {
      saw: 'The microscope was out of focus on the capsule in the last case, and I noticed only on the recording.',
      willTry: 'Focus on the capsule before the cystotome goes in.',
      tags: ['view'],
    },
    {
      saw: 'The flap lay half under the tip each time I let go, and I had to search for its edge.',
      willTry: 'Lay the flap flat before letting go.',
      tags: ['regrasp'],
    },
    {
      saw: 'One small pupil: the circle came out smaller than I had meant, and I saw it only at cortex aspiration.',
      willTry: 'In a small pupil, lift the iris edge once to see where the tear runs.',
      tags: ['view', 'size'],
    },
    {
      saw: 'My wrist was turned at the last quarter. I finished it by pulling instead of tearing round.',
      willTry: 'Change the hold at the third quarter.',
      tags: ['regrasp'],
    },
    {
      saw: 'A calm list. In the two deep chambers the refill came late, and the edge drifted a little outward.',
      willTry: 'Ask for the second syringe of viscoelastic before the list.',
      tags: ['refill'],
    },
    {
      saw: 'Watched next to a colleague: most of the difference is at the start, in the first flap.',
      willTry: 'Watch only the first flap in the next list.',
      tags: ['start'],
    },
  ],
  'cortex-aspiration': [
    {
      saw: 'Under the incision I turned the port down to reach the last strands. It held something I could not see.',
      willTry: 'Leave that sector for the second hand.',
      tags: ['sub-incisional'],
    },
    {
      saw: 'Where the nucleus had turned freely, the cortex came in long strips. Where it had not, in shreds.',
      willTry: 'Test the rotation twice before the tip goes in.',
      tags: ['rotation'],
    },
    {
      saw: 'I pulled before the hold was there, twice, and let go of strips I had already.',
      willTry: 'Wait for the hold, then to the middle.',
      tags: ['hold'],
    },
  ],
};
