import { describe, expect, it } from 'vitest';
import {
  checkRivet,
  findingsText,
  pickOwn,
  readOwnRivets,
  rivet,
  rivetHole,
  rivetShear,
  rivetWeight,
} from '../../../src/core/fastener';
import { KIT } from '../../helpers/kit-rivets';

describe('a table of six rivets', () => {
  const own = readOwnRivets(KIT);
  const of = (label: string) => rivet(label, 'rivet', own);

  it('reads all of them', () => {
    expect(own.problems).toEqual([]);
    expect(own.rivets).toHaveLength(6);
  });

  it('finds them in any case and spacing, before the designations', () => {
    expect(of(' pr-4-2 ').designation).toBe('PR-4-2');
    expect(of('MS20470AD4-6').kind).toBe('solid');
    const renamed = readOwnRivets([KIT[0]!, ['BLIND-AA-42', ...KIT[1]!.slice(1)]]);
    expect(rivet('BLIND-AA-42', 'rivet', renamed).kind).toBe('own');
  });

  it('weighs by the sheet, by the sample (50 pieces, 36 g), by geometry, and not at all where it does not know', () => {
    expect(rivetWeight(of('PR-4-2'), 'bought')).toBeCloseTo(0.0015, 12);
    expect(rivetWeight(of('PR-4-2'), 'installed')).toBeCloseTo(0.00062, 12);
    expect(rivetWeight(of('PR-4-3'), 'bought')).toBeCloseTo(36 / 50 / 453.59237, 12);
    expect(rivetWeight(of('NX123-4-5'), 'installed')).toBeCloseTo(rivetWeight(rivet('MS20470AD4-5')), 9);
    expect(rivetWeight(of('NX124-3-4'))).toBeCloseTo(rivetWeight(rivet('MS20426AD3-4')), 5);
    expect(() => rivetWeight(of('4412'), 'bought')).toThrow(/weight as bought is known.*Sample pieces/);
  });

  it('names what is computed', () => {
    const computed = (label: string) => own.find(label)!.computed.join('; ');
    expect(computed('PR-4-2')).toBe('hole: that of the drill');
    expect(computed('NX123-4-5')).toMatch(
      /weight as bought: from length, head and material; installed weight: as bought; grip to/,
    );
    expect(computed('PR-5-3')).toMatch(/installed weight: from length and material/);
    expect(computed('4412')).toBe('hole and drill: those of the size');
  });

  it('has the shear that is typed, and none where none is', () => {
    expect(rivetShear(of('PR-4-2'))).toBe(260);
    expect(() => rivetShear(of('PR-5-3'))).toThrow(/maker’s sheet/);
  });

  it('is picked by style, diameter and grip, and checked by its own grips', () => {
    expect(pickOwn(own, 'blind', 0.125, 0.08)!.designation).toBe('PR-4-2');
    expect(pickOwn(own, 'blind', 0.125, 0.15)!.designation).toBe('PR-4-3');
    expect(pickOwn(own, 'blind retained', 5 / 32, 0.15)!.designation).toBe('PR-5-3');
    expect(pickOwn(own, 'blind retained', 0.125, 0.15)).toBeUndefined();
    const text = (label: string, grip: number) =>
      findingsText(checkRivet({ rivet: of(label), grip, thickestSheet: 0.04, pitch: 1, edge: 0.3 }));
    expect(text('PR-4-2', 0.08)).toBe('ok');
    expect(text('PR-4-2', 0.15)).toBe('grip 0.15 in is outside 0.04 in to 0.125 in (table of rivets)');
    expect(text('4412', 0.08)).toMatch(/grip range of 4412 is not known/);
    expect(text('NX123-4-5', 0.13)).toBe('ok');
  });

  it('reads millimetres and kilograms below labels that name them', () => {
    const metric = readOwnRivets([
      [
        'Rivet',
        'Kind',
        'Diameter (mm)',
        'Grip from (mm)',
        'Grip to (mm)',
        '1000 bought (kg)',
        'Shear (N)',
        'Hole (mm)',
      ],
      ['M1', 'blind', 3.2, 1, 3, 0.7, 1200, 3.3],
    ]);
    expect(metric.problems).toEqual([]);
    expect(rivetWeight(metric.find('M1')!, 'bought')).toBeCloseTo(0.0007 / 0.45359237, 9);
    expect(rivetHole(metric.find('M1')!)).toBeCloseTo(3.3 / 25.4, 9);
    expect(rivetShear(metric.find('M1')!)).toBeCloseTo(1200 / 4.4482216152605, 6);
  });
});

describe('a row that is wrong is named by its cell, and no other suffers', () => {
  const wrong = (column: number, cell: string | number | null) =>
    readOwnRivets([KIT[0]!, KIT[1]!, KIT[2]!.map((old, at) => (at === column ? cell : old)), KIT[3]!]);

  it.each<[string, number, string | number | null, RegExp]>([
    ['no label', 0, '', /^row 3, Rivet: got a blank; takes what the rivet is called/],
    ['a label twice', 0, 'pr-4-2', /^row 3, Rivet: got "pr-4-2"; takes another label than row 2/],
    ['an unknown kind', 1, 'pop', /^row 3, Kind: got "pop"; takes "universal", "flush", "blind", "blind retained"/],
    ['no diameter', 2, null, /^row 3, Diameter: got a blank/],
    ['a dash number', 2, 4, /^row 3, Diameter: got 4; .*write 4\/32/],
    ['words', 2, 'thick', /^row 3, Diameter: got "thick"; takes inches above 0 and up to 0.5/],
    ['a negative grip', 5, -0.1, /^row 3, Grip from: got -0.1/],
    ['grips the wrong way round', 6, 0.1, /^row 3, Grip to: got 0.1; takes a grip of Grip from or more/],
    ['a head under the shank', 3, 0.1, /^row 3, Head: got 0.1; takes a head wider/],
    ['an installed weight over the bought one', 8, 5, /^row 3, 1000 installed: got 5; takes no more/],
    ['a hole under the shank', 9, 0.1, /^row 3, Hole: got 0.1/],
    ['a shear that is no number', 11, 'high', /^row 3, Shear: got "high"; takes pounds/],
    ['grams that are no number', 15, '36 g', /^row 3, Sample: got "36 g"/],
  ])('%s', (_what, column, cell, message) => {
    const read = wrong(column, cell);
    expect(read.problems.map((one) => one.message)).toEqual([expect.stringMatching(message)]);
    expect(read.problems[0]).toMatchObject({ row: 3, column });
    expect(read.rivets.map(({ designation }) => designation)).toEqual(['PR-4-2', 'PR-5-3']);
  });

  it('says so where the rivet is asked for', () => {
    const read = wrong(2, 4);
    expect(() => rivet('PR-4-3', 'rivet', read)).toThrow(/rivet: got "PR-4-3"; .*Table of rivets, row 3, Diameter/);
  });

  it('a unit that no length has refuses the column; a table without a header says what it takes', () => {
    const read = readOwnRivets([KIT[0]!.map((label) => (label === 'Head (in)' ? 'Head (lb)' : label)), KIT[1]!]);
    expect(read.problems[0]!.message).toMatch(/^row 1, Head: got "lb"/);
    expect(readOwnRivets([['a', 'b']]).problems[0]!.message).toMatch(/^header/);
  });
});
