import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError, NotListedError } from '../../../src/core/input-error';
import { BLIND_PAIRS, rivet, SOLID_ALLOYS, SOLID_SIZES } from '../../../src/core/fastener';
import { BLIND_GRIPS } from '../../../src/core/fastener/sizes';

describe('designations of rivets', () => {
  it.each([
    ['MS20470AD4-6', 'MS20470AD4-6'],
    ['ms20470ad4-6', 'MS20470AD4-6'],
    ['MS20470 AD 4 - 6', 'MS20470AD4-6'],
    ['MS20470-AD4-6', 'MS20470AD4-6'],
    ['AN470AD4-6', 'MS20470AD4-6'],
    ['AN470-AD-4-6', 'MS20470AD4-6'],
    ['NASM20470AD4-6', 'MS20470AD4-6'],
    ['an426ad3-3.5', 'MS20426AD3-3.5'],
    ['MS20426DD6-10', 'MS20426DD6-10'],
    ['BLIND-AA-42', 'BLIND-AA-42'],
    ['blind aa 42', 'BLIND-AA-42'],
    ['BlindAS610', 'BLIND-AS-610'],
  ])('%s is %s', (written, designation) => expect(rivet(written).designation).toBe(designation));

  it('reads diameter in 1/32 and length in 1/16 inch', () => {
    expect(rivet('MS20426AD3-3.5')).toMatchObject({
      kind: 'solid',
      style: 'flush',
      alloy: 'AD',
      dash: 3,
      nominal: 0.09375,
      length: 0.21875,
    });
    expect(rivet('BLIND-SS-54')).toMatchObject({
      stem: 'broken',
      kind: 'blind',
      pair: 'SS',
      nominal: 0.15625,
      gripMin: 0.188,
      gripMax: 0.25,
      length: 0.425,
    });
    expect(rivet('BLIND-SS-54R')).toMatchObject({ stem: 'retained', designation: 'BLIND-SS-54R', length: 0.379 });
    expect(rivet('blind ss 54 retained').designation).toBe('BLIND-SS-54R');
  });

  it.each([['AD4-6'], ['MS20470'], ['MS20470AD46'], [''], ['MS21250-4'], ['BLIND-42']])(
    '%s is not of the form',
    (written) => expect(() => rivet(written)).toThrow(InputError),
  );

  it('a designation without its head asks for the head', () =>
    expect(() => rivet('AD4-6')).toThrow(/MS20470AD4-6 \(universal\) or MS20426AD4-6 \(flush\)/));

  it.each([
    ['MS20470AD7-4', '2, 3, 4, 5, 6 or 8'],
    ['MS20470E4-4', 'A, B, AD, D or DD'],
    ['MS20470AD4-3.3', 'half sizes'],
    ['MS20470AD4-1', 'from 2 to 32'],
    ['MS20470AD4-33', 'from 2 to 32'],
    ['BLIND-CU-42', 'AA'],
    ['BLIND-AA-82', '3, 4, 5 or 6'],
    ['BLIND-AA-47', '41, 42, 43, 44, 45, 46 or 48'],
  ])('%s is not made, and the message says what is', (written, listed) => {
    expect(() => rivet(written)).toThrow(NotListedError);
    expect(() => rivet(written)).toThrow(listed);
  });

  it('every solid rivet of the tables reads back as itself', () => {
    const solid = fc.record({
      head: fc.constantFrom('MS20470', 'MS20426'),
      alloy: fc.constantFrom(...Object.keys(SOLID_ALLOYS)),
      dash: fc.constantFrom(...SOLID_SIZES.map((size) => size.dash)),
      halves: fc.integer({ min: 4, max: 64 }),
    });
    fc.assert(
      fc.property(solid, ({ head, alloy, dash, halves }) => {
        const designation = `${head}${alloy}${dash}-${halves / 2}`;
        const read = rivet(designation);
        return read.designation === designation && read.length === halves / 32 && read.nominal === dash / 32;
      }),
    );
  });

  it('every blind rivet of the tables reads back as itself', () => {
    for (const pair of Object.keys(BLIND_PAIRS)) {
      for (const { dash, gripDash } of BLIND_GRIPS)
        expect(rivet(`BLIND-${pair}-${dash}${gripDash}`)).toMatchObject({ pair, dash, gripDash });
    }
  });
});
