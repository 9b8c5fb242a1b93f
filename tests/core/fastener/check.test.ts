import { describe, expect, it } from 'vitest';
import {
  checkRivet,
  findingsText,
  inMillimetres,
  rivet,
  rivetShear,
  type Layout,
  type SolidRivet,
} from '../../../src/core/fastener';
import { formedHeadHeight } from '../../../src/core/fastener/layout';
import { NotListedError } from '../../../src/core/input-error';

const good = (designation: string, changes: Partial<Layout> = {}): Layout => {
  const of = rivet(designation);
  return { rivet: of, grip: 0.072, thickestSheet: 0.04, pitch: 8 * of.nominal, edge: 3 * of.nominal, ...changes };
};
const findings = (layout: Layout): string => findingsText(checkRivet(layout));

describe('rules of layout', () => {
  it('a joint in order is "ok"', () => {
    expect(findings(good('MS20470AD4-4'))).toBe('ok');
    expect(findings(good('BLIND-AA-42'))).toBe('ok');
  });

  it.each<[string, Partial<Layout>, RegExp]>([
    ['MS20470AD4-4', { edge: 0.24 }, /^edge distance 0.24 in is under 2D = 0.25 in \(AC 43.13-1B/],
    ['MS20426AD4-4', { edge: 0.3 }, /^edge distance 0.3 in is under 2.5D = 0.3125 in/],
    ['MS20470AD4-4', { edge: 0.51 }, /over 4D = 0.5 in/],
    ['MS20470AD4-4', { pitch: 0.37 }, /^pitch 0.37 in is under 3D = 0.375 in/],
    ['MS20470AD4-4', { pitch: 0.45, rows: 2 }, /under 4D = 0.5 in for two rows/],
    ['MS20470AD4-4', { pitch: 1.51 }, /over 12D = 1.5 in/],
    ['MS20470AD4-4', { thickestSheet: 0.063 }, /under about 3 × the thickest sheet = 0.189 in \(AC 43.13-1B ¶4-58g/],
    ['MS20470AD4-4', { thickestSheet: 0.125 + 0.01 }, /under the thickest sheet/],
    ['MS20470AD2-3', { grip: 0.08, thickestSheet: 0.02 }, /under 3\/32 in is not for structure/],
    [
      'MS20470AD4-3',
      {},
      /length 0.1875 in is too short for the grip: grip \+ 1.5D = 0.2595 in, the formed head would be/,
    ],
    ['MS20470AD4-6', {}, /length 0.375 in is too long/],
    ['MS20470AD4-3', { grip: 0.2 }, /which leaves no head to form/],
    [
      'MS20426AD4-4',
      { head: 'countersunk', outerSheet: 0.032 },
      /^sheet 0.032 in is under 0.05 in, the least for a countersink .*dimple it \(TM 9-2320-363-34-2 table 4\)$/,
    ],
    [
      'MS20470AD4-4',
      { thickestSheet: 0.063 },
      /goes up to the next size, 1\/4; NAVEDTRA 14018 ch. 13 allows 1 to 3 times, 0.063 in to 0.189 in\)/,
    ],
    ['BLIND-AA-42', { grip: 0.05 }, /grip 0.05 in is outside 0.063 in to 0.125 in/],
    ['BLIND-AA-42', { grip: 0.14 }, /outside/],
  ])('%s %o', (designation, changes, finding) => expect(findings(good(designation, changes))).toMatch(finding));

  it('a grip in the thousandth between two printed ranges is in order for the longer blind rivet, which is the one to pick', () => {
    expect(findings(good('BLIND-AA-43', { grip: 0.1253 }))).toBe('ok');
    expect(findings(good('BLIND-AA-43', { grip: 0.1249 }))).toMatch(/grip 0.1249 in is outside/);
    expect(findings(good('BLIND-AA-41', { grip: 0.019 }))).toMatch(/outside/);
  });

  it('limits themselves are allowed, also after rounding to a hundredth of a millimetre', () => {
    const thin = { thickestSheet: 0.032 };
    expect(findings(good('MS20470AD3-4', { ...thin, edge: 0.1875, pitch: 0.28125 }))).toBe('ok');
    expect(findings(good('MS20470AD3-4', { ...thin, edge: 0.375, pitch: 1.125 }))).toBe('ok');
    expect(findings(good('MS20470AD3-4', { ...thin, edge: 4.76 / 25.4, pitch: 7.14 / 25.4 }))).toBe('ok');
  });

  it('several findings stand in one text, each with its source', () => {
    const text = findings(good('MS20470AD4-6', { edge: 0.1, pitch: 0.1 }));
    expect(text.split('; ')).toHaveLength(3);
    expect(text.match(/\((AC|FAA|NAVEDTRA|TM)[^)]*\)/g)).toHaveLength(3);
  });

  it('lengths are written in millimetres for whoever works in them', () => {
    expect(findingsText(checkRivet(good('MS20470AD4-4', { edge: 0.1 }), inMillimetres))).toMatch(
      /^edge distance 2.54 mm is under 2D = 6.35 mm/,
    );
  });

  it('grip + 1.5D gives more than half a diameter of head, as wide as 1.5D', () => {
    expect(formedHeadHeight(rivet('MS20470AD4-4.5') as SolidRivet, 0.072)).toBeGreaterThan(0.0625);
  });
});

describe('shear', () => {
  it('follows the alloy', () => {
    const [b, ad, d, dd] = ['B', 'AD', 'D', 'DD'].map((alloy) => rivetShear(rivet(`MS20470${alloy}4-6`)));
    expect(b! < ad! && ad! < d! && d! < dd!).toBe(true);
  });

  it('does not depend on length or head', () =>
    expect(rivetShear(rivet('MS20470AD4-6'))).toBe(rivetShear(rivet('MS20426AD4-10'))));

  it.each([
    ['BLIND-AA-42', /maker's/],
    ['MS20470A4-4', /1100 rivets are soft/],
  ])('%s has none', (designation, message) => {
    expect(() => rivetShear(rivet(designation))).toThrow(NotListedError);
    expect(() => rivetShear(rivet(designation))).toThrow(message);
  });
});
