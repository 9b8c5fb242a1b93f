/**
 * Joints against published values: MIL-HDBK-5F (second-hand: printed in a builders' list of 1995 from the handbook),
 * AC 43.13-1B ¶4-57, ¶4-58 and table 4-10, TM 9-2320-363-34-2 tables 3 and 4, NAVEDTRA 14018 chapter 13.
 */
import { describe, expect, it } from 'vitest';
import { FIRST_LOOK, jointStrength, rivet, rivetsPerInch, SOLID_SIZES } from '../../src/core/fastener';
import { NotListedError } from '../../src/core/input-error';
import { call, findDefinition } from '../../src/functions';
import type { Argument } from '../../src/sheet';

const tare = (name: string, ...args: Argument[]) => call(findDefinition(name)!, args);

describe('MIL-HDBK-5F, second-hand: MS20426AD3 in 2024-T3, ultimate lb', () => {
  it.each([
    [0.032, 178],
    [0.04, 193],
    [0.063, 216],
  ])('countersunk in %s: %s', (sheet, pounds) => {
    expect(jointStrength(rivet('MS20426AD3-4'), sheet, '2024-T3', 'countersunk')).toMatchObject({
      pounds,
      governs: 'sheet',
    });
    expect(String(tare('RIVET.STRENGTH', 'MS20426AD3-4', sheet, '2024-T3', 'countersunk'))).toMatch(
      new RegExp(`^${pounds} lbf: the sheet governs.*; ${FIRST_LOOK}$`),
    );
  });

  it.each([0.032, 0.04, 0.063])('dimpled in %s: 217', (sheet) =>
    expect(jointStrength(rivet('MS20426AD3-4'), sheet, 'Alclad 2024-T3', 'dimpled').pounds).toBe(217),
  );

  it('AD4 dimpled in .040: 388', () =>
    expect(jointStrength(rivet('MS20426AD4-4'), 0.04, '2024-T3', 'dimpled').pounds).toBe(388));

  it('between two thicknesses the thinner row holds; .032 is called a knife edge', () => {
    expect(jointStrength(rivet('MS20426AD3-4'), 0.05, '2024-T3', 'countersunk').pounds).toBe(193);
    expect(jointStrength(rivet('MS20426AD3-4'), 0.032, '2024-T3', 'countersunk').how).toContain('knife edge');
  });

  it.each([
    ['thinner sheet', 'MS20426AD3-4', 0.025, '2024-T3', 'countersunk'],
    ['thinner sheet, dimpled', 'MS20426AD3-4', 0.016, '2024-T3', 'dimpled'],
    ['other metal', 'MS20426AD3-4', 0.04, '6061-T6', 'countersunk'],
    ['other size', 'MS20426AD5-5', 0.064, '2024-T3', 'countersunk'],
    ['other alloy', 'MS20426DD3-4', 0.04, '2024-T3', 'countersunk'],
    ['head form unknown', 'MS20426AD3-4', 0.04, '2024-T3', undefined],
    ['blind', 'BLIND-AA-42', 0.04, '2024-T3', undefined],
    ['bearing of thin sheet under a protruding head', 'MS20470AD4-4', 0.032, '2024-T3', undefined],
  ] as const)('refuses what is not in hand: %s', (_what, name, sheet, metal, head) =>
    expect(() => jointStrength(rivet(name), sheet, metal, head)).toThrow(NotListedError),
  );

  it('a protruding head in thick sheet shears before the sheet fails', () =>
    expect(jointStrength(rivet('MS20470AD3-5'), 0.04, '2024-T3')).toMatchObject({ governs: 'rivet' }));
});

describe('AC 43.13-1B table 4-10, AD rivets with protruding head an inch of width of clad 2024-T3', () => {
  it.each([
    [3, 0.016, 6.5],
    [3, 0.02, 6.5],
    [3, 0.025, 6.9],
    [3, 0.032, 8.9],
    [3, 0.04, 11.1],
    [4, 0.016, 4.9],
    [4, 0.032, 4.9],
    [4, 0.04, 6.2],
    [4, 0.051, 7.9],
    [4, 0.064, 9.9],
    [5, 0.02, 3.9],
    [5, 0.051, 5.1],
    [6, 0.032, 3.3],
    [6, 0.064, 4.5],
    [8, 0.04, 2.4],
    [8, 0.064, 2.5],
  ])('%s/32 in .%s: %s', (dash, sheet, printed) =>
    expect(rivetsPerInch(rivet(`MS20470AD${dash}-6`), sheet, 'Alclad 2024-T3')).toBe(printed),
  );

  it.each([
    [3, 0.02, 6.9],
    [3, 0.04, 13.8],
    [4, 0.032, 6.2],
    [4, 0.04, 7.7],
  ])('table 4-9 (bare): %s/32 in %s: %s', (dash, sheet, printed) =>
    expect(rivetsPerInch(rivet(`MS20470AD${dash}-6`), sheet, '2024-T3 bare')).toBe(printed),
  );

  it('worked example, p. 4-27: .032 clad, 10 in, 1/8: 4.9 × .75 = 3.7 an inch, 37 rivets', () => {
    const each = tare('RIVET.PERINCH', 'MS20470AD4-5', 0.032, '2024-T3', 'single lap') as number;
    expect(each).toBeCloseTo(3.7, 1);
    expect(Math.ceil(each * 10)).toBe(37);
  });

  it.each([
    ['flange, stringer, .6 in', 0.6, 'width', 4],
    ['flange, intermediate frame, .6 in', 0.6, 'intermediate frame', 3],
    ['web, 2.0 in', 2, 'width', 13],
    ['web, intermediate frame, 2.0 in', 2, 'intermediate frame', 8],
  ])('worked example, p. 4-41, .040: %s', (_what, width, member, rivets) =>
    expect(Math.ceil((tare('RIVET.PERINCH', 'MS20470AD4-5', 0.04, '2024-T3', member) as number) * width)).toBe(rivets),
  );
});

describe('TM 9-2320-363-34-2', () => {
  it.each([
    [3, 0.04],
    [4, 0.05],
    [5, 0.064],
    [6, 0.072],
    [8, 0.072],
  ])('table 4: %s/32 in is countersunk in %s in and more', (dash, least) => {
    const check = (sheet: number) =>
      String(tare('RIVET.CHECK', `MS20426AD${dash}-8`, 0.16, 0.08, 1, (3 * dash) / 32, null, 1, 'countersunk', sheet));
    expect(check(least)).not.toContain('countersink');
    expect(check(least - 0.002)).toContain(`under ${least} in, the least for a countersink`);
  });

  it.each([
    [4, 0.222, 0.228],
    [5, 0.283, 0.289],
    [6, 0.35, 0.356],
  ])('table 3: the countersink of %s/32 in has the head of MS20426 between %s and %s', (dash, least, greatest) => {
    const { flushHead } = SOLID_SIZES.find((size) => size.dash === dash)!;
    expect(flushHead).toBeGreaterThan(least);
    expect(flushHead).toBeLessThan(greatest);
  });
});

describe('correct work is not found fault with', () => {
  it.each(['dimpled', null])('.016 + .016 with MS20426AD3-3, head %s', (head) =>
    expect(tare('RIVET.CHECK', 'MS20426AD3-3', 0.032, 0.016, 1, 0.25, null, 1, head, 0.016)).toBe('ok'),
  );

  it('two rows ask for 4D (AC 43.13-1B ¶4-57c), one and three for 3D', () => {
    const rows = (n: number) => String(tare('RIVET.CHECK', 'MS20470AD4-4', 0.064, 0.032, 0.4, 0.3, null, n));
    expect(rows(1)).toBe('ok');
    expect(rows(2)).toContain('pitch 0.4 in is under 4D = 0.5 in for two rows');
    expect(rows(3)).toBe('ok');
  });

  it('AC 43.13-1B p. 4-27: .032 sheet, 1/8 in; and what is under both rules names both', () => {
    expect(tare('RIVET.CHECK', 'MS20470AD4-4', 0.064, 0.032, 1, 0.3)).toBe('ok');
    expect(tare('RIVET.CHECK', 'MS20470AD3-4', 0.1, 0.05, 1, 0.3)).toMatch(
      /AC 43\.13-1B ¶4-58g.*next size, 5\/32; NAVEDTRA 14018 ch\. 13 allows 1 to 3 times, 0\.05 in to 0\.15 in/,
    );
  });
});
