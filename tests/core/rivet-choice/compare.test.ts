import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { piecesPerPound, rivet, rivetWeight } from '../../../src/core/fastener';
import { openPriceBook, readPriceList, type PriceCell } from '../../../src/core/price';
import {
  compareRivets,
  DEFAULT_TERMS,
  readKind,
  type ChoiceJoint,
  type Compared,
  type OptionResult,
  type Terms,
} from '../../../src/core/rivet-choice';

const HEAD = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'];
const LIST: PriceCell[][] = [
  HEAD,
  ['AN470AD4-4', 'rivet', 'lb', '', 30, 'USD', ''],
  ['MS20470AD3-3', 'rivet', 'lb', '', 38, 'USD', ''],
  ['BLIND-AA-42', 'rivet', '1000', '', 48, 'USD', ''],
  ['BLIND-AA-42', 'rivet', '1000', '', 30, 'USD', 3],
  ['BLIND-AS-42', 'rivet', '100', '', 7.2, 'USD', ''],
];
const book = (rows: PriceCell[][] = LIST) => openPriceBook(readPriceList(rows), piecesPerPound);
const joint = (name: string, count: number, more: Partial<ChoiceJoint> = {}): ChoiceJoint => ({
  name,
  grip: 0.072,
  diameter: 0.125,
  count,
  ...more,
});
const option = (kind: string, name = kind) => ({ name, kinds: readKind(kind) });
const compare = (
  joints: readonly ChoiceJoint[],
  kinds: readonly string[],
  terms: Partial<Terms> = {},
  rows = LIST,
): OptionResult[] =>
  compareRivets(
    joints,
    kinds.map((kind) => option(kind)),
    book(rows),
    { ...DEFAULT_TERMS, ...terms },
  );
const done = (result: OptionResult | undefined): Compared => {
  if (!result?.possible) throw new Error('the option is refused');
  return result;
};

describe('what is bought', () => {
  it('takes whole pounds, and a length once for all joints', () => {
    // 2250 MS20470AD4-4 to the pound: 1500 + 1500 are two pounds, not one and one and a rest.
    const [solid] = compare([joint('a', 1500), joint('b', 1500)], ['solid']);
    const { lengths, cost } = done(solid).material;
    expect(lengths.map(({ rivet: { designation }, count, purchase }) => [designation, count, purchase?.units])).toEqual(
      [['MS20470AD4-4', 3000, 2]],
    );
    expect(cost).toBe(60);
  });

  it('knows the older name of the list', () => {
    expect(done(compare([joint('a', 10)], ['solid'])[0]).material.cost).toBe(30);
  });

  it('uses a price break, also where more costs less', () => {
    // Two thousand at 48 are 96; three at 30 are 90.
    const material = done(compare([joint('a', 1800)], ['blind AA'])[0]).material;
    expect([material.lengths[0]?.purchase?.units, material.cost]).toEqual([3, 90]);
  });

  it('names the rivets without a price and gives no total', () => {
    const [solid, small] = compare([joint('a', 100), joint('b', 100, { grip: 0.2 })], ['solid', 'solid 3/32']).map(
      done,
    );
    expect(solid!.total).toBeUndefined();
    expect(solid!.material.missing.join()).toMatch(/MS20470AD4-6/);
    expect(small!.costDifference).toBeUndefined();
    expect(small!.weightDifference).toBeLessThan(0);
  });

  it('refuses to add two currencies', () => {
    const rows = [
      HEAD,
      ['MS20470AD4-4', 'rivet', 'lb', '', 30, 'USD', ''],
      ['MS20470AD4-6', 'rivet', 'lb', '', 30, 'EUR', ''],
    ];
    const [solid] = compare([joint('a', 100), joint('b', 100, { grip: 0.2 })], ['solid'], {}, rows);
    expect(done(solid).total).toBeUndefined();
    expect(done(solid).material.missing.join()).toContain('USD and EUR');
  });
});

describe('work and tools', () => {
  it('counts a second person while solid rivets are set, not while they are drilled', () => {
    const terms = { labourRate: 30, minutes: { solid: { drill: 1, set: 2 }, blind: { drill: 1, set: 0.5 } } };
    const alone = compare([joint('a', 60)], ['solid', 'blind'], terms).map(done);
    const two = compare([joint('a', 60)], ['solid', 'blind'], { ...terms, secondPerson: true }).map(done);
    expect(alone.map(({ hours, labour }) => [hours, labour])).toEqual([
      [3, 90],
      [1.5, 45],
    ]);
    expect(two.map(({ hours, labour }) => [hours, labour])).toEqual([
      [5, 150],
      [1.5, 45],
    ]);
  });

  it('buys whole tools, for the rivets that need them, the owned one for nothing', () => {
    const tools = [
      { name: 'Squeezer', for: 'solid', price: 100, owned: false },
      { name: 'Set 1/8', for: 'solid', diameter: 0.125, price: 20, life: 1000, owned: true },
      { name: 'Set 3/32', for: 'solid', diameter: 0.09375, price: 20, owned: false },
      { name: 'Puller', for: 'blind', price: 50, owned: false },
      { name: 'Drill', for: 'all', price: 4, life: 500, owned: false },
    ] as const;
    const [solid, small, blind] = compare([joint('a', 2001)], ['solid', 'solid 3/32', 'blind'], { tools }).map(done);
    expect(solid!.tools.map(({ tool, bought, cost }) => [tool.name, bought, cost])).toEqual([
      ['Squeezer', 1, 100],
      ['Set 1/8', 2, 40],
      ['Drill', 5, 20],
    ]);
    expect(small!.tools.map(({ tool, bought }) => [tool.name, bought])).toEqual([
      ['Squeezer', 1],
      ['Set 3/32', 1],
      ['Drill', 5],
    ]);
    expect(blind!.toolCost).toBe(70);
    expect(blind!.total).toBe(90 + 70);
  });
});

describe('where an option does not go', () => {
  it('refuses solid rivets where one side only can be reached', () => {
    const [designed, solid, blind] = compare(
      [joint('Tip cap', 40, { oneSide: true, style: 'blind' })],
      ['as designed', 'solid', 'blind AS'],
    );
    expect(designed!.possible).toBe(true);
    expect(blind!.possible).toBe(true);
    expect(solid!.possible).toBe(false);
    if (!solid!.possible) expect(solid!.refusals[0]!.error.message).toMatch(/Tip cap.*one side only/);
  });

  it('mixes by joint', () => {
    const kinds = [readKind('solid'), readKind('blind AA')];
    const [mixed] = compareRivets([joint('a', 100), joint('b', 200)], [{ name: 'mixed', kinds }], book());
    expect(done(mixed).lines.map(({ rivet: { designation }, count }) => [designation, count])).toEqual([
      ['MS20470AD4-4', 100],
      ['BLIND-AA-42', 200],
    ]);
  });

  it('refuses a grip that no size reaches, and then sets nothing against it', () => {
    const [blind, solid] = compare([joint('Spar caps', 40, { grip: 0.6 })], ['blind', 'solid']);
    expect(blind!.possible).toBe(false);
    expect(done(solid).weightDifference).toBeUndefined();
  });
});

describe('strength against the solid rivet', () => {
  it('says how many 3/32 rivets have the shear of 1/8, and adds them when told to', () => {
    // MIL-HDBK-5 table 8.1.2(b), from memory: 388 lb for 1/8 and 217 lb for 3/32 of 2117.
    const least = Math.ceil((100 * 388) / 217);
    const [equal] = compare([joint('a', 100, { pitch: 1 })], ['solid 3/32']).map(done);
    const [matched] = compare([joint('a', 100, { pitch: 1 })], ['solid 3/32'], { matchShear: true }).map(done);
    expect(equal!.rivets).toBe(100);
    expect(Math.abs(equal!.lines[0]!.strength.needed! - least)).toBeLessThanOrEqual(1);
    expect(matched!.rivets).toBe(equal!.lines[0]!.strength.needed);
    expect(matched!.lines[0]!.strength.ratio).toBeGreaterThanOrEqual(1);
    expect(matched!.lines[0]!.closerPitch).toBeCloseTo(100 / matched!.rivets, 9);
  });

  it('knows no shear of a blind rivet until the maker’s figure is typed', () => {
    const line = (makersShear: Terms['makersShear']) =>
      done(compare([joint('a', 100)], ['blind AS'], { makersShear, matchShear: true })[0]).lines[0]!;
    expect(line({}).strength).toMatchObject({ each: undefined, ratio: undefined, needed: undefined });
    expect(line({}).strength.rule).toMatch(/maker/);
    expect(line({}).count).toBe(100);
    // 100 × 389 lb in rivets of 200 lb.
    expect(line({ 'AS-4': 200 }).count).toBe(195);
  });

  it('sets a joint that is designed blind against the universal rivet of its diameter', () => {
    expect(
      done(compare([joint('a', 10, { style: 'blind' })], ['as designed'])[0]).lines[0]!.strength.against.designation,
    ).toBe('MS20470AD4-4');
  });

  it('keeps a hard alloy and a flush head unless told otherwise', () => {
    const lines = (kind: string) =>
      done(compare([joint('a', 10, { style: 'flush', alloy: 'DD', grip: 0.1 })], [kind])[0]).lines[0]!.rivet
        .designation;
    expect(lines('solid')).toBe('MS20426DD4-5');
    expect(lines('universal AD')).toBe('MS20470AD4-5');
  });
});

describe('differences', () => {
  it('says what a pound saved costs', () => {
    const joints = [joint('a', 1800)];
    const [solid, blind] = compare(joints, ['solid', 'blind AA']).map(done);
    const saved = 1800 * (rivetWeight(rivet('MS20470AD4-4')) - rivetWeight(rivet('BLIND-AA-42')));
    expect(solid!.perPoundSaved).toBeUndefined();
    expect(blind!.weightDifference).toBeCloseTo(-saved, 12);
    expect(blind!.perPoundSaved).toBeCloseTo((90 - 30) / saved, 9);
  });

  it('adds up for any joints', () => {
    const anyJoint = fc.record({
      name: fc.string(),
      grip: fc.double({ min: 0.032, max: 0.12, noNaN: true }),
      diameter: fc.constant(0.125),
      count: fc.integer({ min: 0, max: 5000 }),
    });
    const rows = [
      HEAD,
      ...['3', '4', '5'].map((length) => [`MS20470AD4-${length}`, 'rivet', 'lb', '', 29.37, 'USD', '']),
      ...['41', '42'].map((size) => [`BLIND-AA-${size}`, 'rivet', '100', '', 5.55, 'USD', '']),
    ];
    fc.assert(
      fc.property(
        fc.array(anyJoint, { minLength: 1, maxLength: 6 }),
        fc.double({ min: 0, max: 90, noNaN: true }),
        (joints, labourRate) => {
          const [solid, blind] = compare(joints, ['solid', 'blind'], { labourRate }, rows).map(done);
          for (const one of [solid!, blind!]) {
            expect(Math.round(one.total! * 100)).toBe(
              Math.round(one.material.cost! * 100) + Math.round(one.labour * 100),
            );
            expect(one.material.lengths.reduce((sum, { count }) => sum + count, 0)).toBe(one.rivets);
            for (const { count, purchase } of one.material.lengths)
              expect(purchase!.quantity).toBeGreaterThanOrEqual(count - 1e-6);
          }
          expect(Math.round(blind!.costDifference! * 100)).toBe(
            Math.round(blind!.total! * 100) - Math.round(solid!.total! * 100),
          );
        },
      ),
    );
  });
});
