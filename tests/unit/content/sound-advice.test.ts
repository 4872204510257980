import { describe, expect, it } from 'vitest';
import { loadCautions, loadGuidance, loadProcedures } from '../../../src/lib/server/content';
import { allTexts, noteTexts, sentencesOf } from './prose';

const pages = loadGuidance();
const procedures = loadProcedures();
const named = pages.map((page) => [`${page.procedureId}/${page.step}`, page] as const);
const page = (name: string) => {
  const found = named.find(([each]) => each === name)?.[1];
  if (!found) throw new Error(`no page ${name}`);
  return found;
};

// Common practice; a practising surgeon has yet to read it. Whoever changes one of these changes it here, on purpose.
describe('posterior polar cataract', () => {
  const hydro = [page('phaco/hydrodissection'), page('sics/hydrodissection')];

  it.each(hydro)(
    '$procedureId: delineation only, so no other check of the step is for such an eye',
    ({ checkpoints }) => {
      const own = checkpoints.filter(({ fits }) => fits.includes('eye:polar-or-plaque'));
      expect(own).toHaveLength(1);
      expect(own[0]?.look).toMatch(/delineate/);
      for (const { id, notFor } of checkpoints)
        if (id !== own[0]?.id) expect(notFor, id).toContain('eye:polar-or-plaque');
    },
  );

  it.each(named)('%s: no check that asks for a turn of the nucleus is for such an eye', (_, { checkpoints }) => {
    const turning = checkpoints.filter(({ look }) => /nucleus (?:turns|is turned)/.test(look));
    for (const { id, look, notFor } of turning)
      if (!look.includes('radial tear') && !look.includes('before the nucleus is turned'))
        expect(notFor, id).toContain('eye:polar-or-plaque');
  });

  it('is named on the note of the step, in both procedures', () => {
    for (const { reminders } of hydro)
      expect(reminders.filter((each) => /no hydrodissection/.test(each) && /delineate/.test(each))).toHaveLength(1);
  });
});

describe('iris in a wound', () => {
  // Forming the chamber first pushes more iris out.
  const about = named.flatMap(([name, each]) =>
    each.stop
      .filter((sign) => /\biris\b/i.test(sign) && /\b(port|wound|track|tunnel|lip|out)\b/.test(sign))
      .filter(
        (sign) =>
          !/^(?:Iris comes with the nucleus|The root of the iris|Iris keeps jumping|The pupil tears)/.test(sign),
      )
      .map((sign) => [name, sign] as const),
  );

  it('is a stop sign at every step that makes or uses a wound for the first or last time', () => {
    expect(about.length).toBeGreaterThanOrEqual(8);
  });

  it.each(about)('%s: fluid out, iris in, and only then fill: %s', (_, sign) => {
    const out = sign.search(
      /let (?:(?:a little|some) )?(?:OVD or )?fluid (?:out|go)|let a little OVD or fluid out|gushes/i,
    );
    expect(out).toBeGreaterThanOrEqual(0);
    const fill = sign.search(/\b(?:fill|form the chamber)/i);
    if (fill >= 0) expect(out).toBeLessThan(fill);
  });
});

describe('the capsule gives way', () => {
  it('irrigation stays on, aspiration stops, OVD goes in, and only then does anything leave the eye', () => {
    const [line = ''] = loadCautions()['capsule-rupture'].paragraphs;
    const places = [
      /hold still/,
      /keep irrigating/,
      /stop aspirating/,
      /inject OVD/,
      /only then withdraw/,
      /call for help/,
    ].map((each) => line.search(each));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it.each(['phaco/nucleus-removal', 'phaco/segment-removal'])('%s: vitreous, in the same order', (name) => {
    const sign = page(name).stop.find((each) => /strand/.test(each)) ?? '';
    const places = [/irrigat/i, /stop aspirati/, /OVD/, /withdraw|come out/].map((each) => sign.search(each));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it.each(['phaco/nucleus-removal', 'phaco/segment-removal', 'sics/nucleus-delivery'])(
    '%s: a sinking nucleus is not chased',
    (name) => {
      expect(page(name).stop.some((sign) => /sinks/.test(sign) && /not chase|let it go|not reach/i.test(sign))).toBe(
        true,
      );
    },
  );
});

describe('what was withdrawn as unsafe or wrong', () => {
  it.each([
    ['leaving the pedal when the chamber shallows', /off the pedal/i],
    ['settings that merely come down', /settings (?:come|are turned|turned) down/i],
    ['one proof of a lens in the bag', /\b(?:one|only) proof\b/i],
    ['subincisional cortex always last', /\b(?:always|must be) (?:taken|left|done) (?:for )?last\b/i],
  ])('%s stands nowhere', (_, pattern) => {
    for (const [name, each] of named) for (const text of allTexts(each)) expect(text, name).not.toMatch(pattern);
  });

  it('a dose of an antibiotic stands nowhere: drug, dose, dilution and allergy are read out', () => {
    for (const name of ['phaco/wound-check', 'sics/wound-check']) {
      const texts = allTexts(page(name))
        .flatMap(sentencesOf)
        .filter((each) => /antibiotic/i.test(each));
      expect(texts.join(' ')).toMatch(/drug, dose, dilution and allergy/i);
      for (const text of texts) expect(text).not.toMatch(/\d ?(?:mg|µg|mcg|ml|%)\b/i);
    }
  });
});

describe('what has to be named', () => {
  it.each([
    ['phaco/ovd-fill', /floppy iris/],
    ['phaco/segment-removal', /floppy iris/],
    ['phaco/nucleus-removal', /reverse pupillary block/],
    ['phaco/nucleus-removal', /OVD in front of the tip is aspirated/],
    ['phaco/nucleus-removal', /choroidal haemorrhage/],
    ['phaco/bag-refill', /choroidal haemorrhage/],
    ['phaco/main-incision', /patient sitting up/],
    ['phaco/capsulorhexis', /plane of the capsule towards the centre/],
    ['phaco/cortex-aspiration', /a common order; the opposite is also taught/],
    ['phaco/iol-insertion', /each haptic is traced/],
    ['sics/bridle-suture', /pulse slows/],
    ['sics/chamber-entry', /iridodialysis/],
    ['sics/chamber-entry', /Descemet's membrane[^.]*\..*air or gas as your protocol says/],
    [
      'sics/nucleus-delivery',
      /tested for flow outside the eye.*only once the pole is engaged.*presses down and never lifts/,
    ],
    ['sics/nucleus-delivery', /fishhook/],
    ['sics/nucleus-delivery', /phacosection/],
    ['sics/nucleus-delivery', /maintainer/],
  ])('%s: %s', (name, pattern) => {
    expect(allTexts(page(name)).join(' ')).toMatch(pattern);
  });
});

describe('what a checkpoint answers', () => {
  it.each(procedures)('$id: every event kind that is named has a checkpoint for it', ({ id, eventKinds }) => {
    const fits = new Set<string>(
      pages.filter(({ procedureId }) => procedureId === id).flatMap((each) => each.checkpoints.flatMap((c) => c.fits)),
    );
    expect(eventKinds.filter((kind) => kind.id !== 'other' && !fits.has(`event:${kind.id}`))).toEqual([]);
  });

  it.each(named)(
    '%s: every protected part of the step has a checkpoint of its own',
    (_, { procedureId, step, checkpoints }) => {
      const parts =
        procedures.find(({ id }) => id === procedureId)?.steps.find(({ id }) => id === step)?.protectedParts ?? [];
      const fits = new Set<string>(checkpoints.flatMap((each) => each.fits));
      expect(parts.filter(({ id }) => !fits.has(`part:${id}`))).toEqual([]);
    },
  );

  it.each(procedures)('$id: every kind of eye that makes a step harder has a checkpoint', ({ id, facts }) => {
    const fits = new Set<string>(
      pages.filter(({ procedureId }) => procedureId === id).flatMap((each) => each.checkpoints.flatMap((c) => c.fits)),
    );
    const asked = facts
      // A combined operation is another operation; nothing here speaks of it.
      .filter((fact) => fact.kind === 'yes-no' && !fact.levels && fact.id !== 'combined')
      .map((fact) => `eye:${fact.id}`);
    asked.push('eye:nucleus:very-hard', 'eye:nucleus:white', 'eye:pupil:small', 'eye:still:no');
    expect(asked.filter((fit) => !fits.has(fit))).toEqual([]);
  });
});

describe('the five pages with numbers', () => {
  it.each([
    'phaco/side-port',
    'phaco/incision',
    'phaco/nucleus-removal',
    'phaco/iol-insertion',
    'sics/nucleus-delivery',
    'sics/iol-insertion',
  ])('%s has measures in millimetres, with a mark each, and says at every stop sign what to do', (name) => {
    const found = page(name);
    expect([...Object.values(found.marked), found.body].join(' ')).toMatch(/\d mm\b[^.]*\[c\]/);
    for (const sign of found.stop) expect(sentencesOf(sign).length, sign).toBeGreaterThan(1);
  });

  it('the worksheet has three phases and no values of ours', () => {
    const { worksheet } = page('phaco/nucleus-removal');
    expect(worksheet?.columns).toHaveLength(3);
    for (const text of [...(worksheet?.columns ?? []), ...(worksheet?.rows ?? [])]) expect(text).not.toMatch(/\d/);
  });
});

describe('stop signs', () => {
  it.each(named)('%s: each says the sign and then what to do', (_, each) => {
    for (const sign of each.stop) expect(sentencesOf(sign).length, sign).toBeGreaterThan(1);
  });

  it.each(named)('%s: what stands on the note names its trade in standard terms', (_, each) => {
    expect(noteTexts(each).join(' ')).not.toMatch(/\b(suction|back-flow)\b/i);
  });
});
