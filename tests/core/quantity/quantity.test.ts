/** Units that labels name, there and back, and quantities as people read them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimalNumber,
  DIMENSIONS,
  fromUnit,
  inUnit,
  labelDimension,
  labelIn,
  leadingNumber,
  plainNumber,
  quantities,
  readUnit,
  telling,
  toInch,
  typedNumber,
  unitIn,
  unitsOf,
  UNIT_SYSTEMS,
  withDot,
  writeEnglish,
  type Dimension,
} from '../../../src/core/quantity';

const NAMED = (Object.keys(DIMENSIONS) as Dimension[]).filter((dimension) => unitsOf(dimension).length > 0);

describe('a number in a unit', () => {
  const units = NAMED.flatMap((dimension) => unitsOf(dimension));
  // Nothing that a cell measures is nearer to 0 than this; below 2e-308 the machine itself loses digits.
  const values = fc
    .double({ min: -1e9, max: 1e9, noNaN: true })
    .filter((value) => value === 0 || Math.abs(value) > 1e-200);

  it('comes back the same to 1e-12 when it is read and written', () => {
    fc.assert(
      fc.property(fc.constantFrom(...units), values, (unit, value) => {
        expect(Math.abs(inUnit(fromUnit(value, unit), unit) - value)).toBeLessThanOrEqual(1e-12 * Math.abs(value));
        expect(Math.abs(fromUnit(inUnit(value, unit), unit) - value)).toBeLessThanOrEqual(1e-12 * Math.abs(value));
      }),
      { numRuns: 500 },
    );
  });

  it('is what the worksheet functions make of it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...NAMED), fc.constantFrom(...UNIT_SYSTEMS), values, (dimension, system, value) => {
        const worked = toInch(value, dimension, system);
        expect(Math.abs(fromUnit(value, unitIn(dimension, system)) - worked)).toBeLessThanOrEqual(
          1e-12 * Math.abs(worked),
        );
      }),
    );
  });

  it.each([
    [0.635, 'mm', 'length', 0.025],
    [3.175, 'mm', 'length', 0.125],
    [2.54, 'cm', 'length', 1],
    [0.0254, 'm', 'length', 1],
    [2, 'ft', 'length', 24],
    [6.4516, 'cm²', 'area', 1],
    [45.359237, 'kg', 'weight', 100],
    [453.59237, 'g', 'weight', 1],
    [8, 'oz', 'weight', 0.5],
    [0.45359237 * 0.0254, 'kg·m', 'moment', 1],
    [4.4482216152605, 'N', 'force', 1],
  ] as const)('%f %s is exact', (value, sign, dimension, inches) =>
    expect(fromUnit(value, readUnit(sign, dimension))).toBe(inches),
  );

  it('is left alone in inches and pounds', () =>
    expect(fromUnit(0.1 + 0.2, unitIn('length', 'in-lb'))).toBe(0.1 + 0.2));
});

describe('a label', () => {
  it.each([
    ['KG', 'weight', 'kg'],
    ['lbs', 'weight', 'lb'],
    ['lbs.', 'weight', 'lb'],
    ['sq in', 'area', 'in²'],
    ['mm2', 'area', 'mm²'],
    ['mm^2', 'area', 'mm²'],
    ['kg mm', 'moment', 'kg·mm'],
    ['in lbs', 'moment', 'lb·in'],
    ['Pounds', 'weight', 'lb'],
    ['square millimeters', 'area', 'mm²'],
    ['kg-mm', 'moment', 'kg·mm'],
    ['mm·kg', 'moment', 'kg·mm'],
    ['in-lb', 'moment', 'lb·in'],
    ['kn', 'force', 'kN'],
  ] as const)('with "%s" of a %s is in %s', (sign, dimension, unit) =>
    expect(readUnit(sign, dimension)?.sign).toBe(unit),
  );

  it('does not take a unit of something else, or one that nobody knows', () => {
    expect(readUnit('kg', 'length')).toBeUndefined();
    expect(readUnit('stone', 'weight')).toBeUndefined();
  });

  it('of a form says what it measures, and is written in another system', () => {
    expect(
      ['Arm (in)', 'Flat area (in²)', 'Weight (lb)', 'Moment (lb·in)', 'Growth (%)', 'Qty'].map(labelDimension),
    ).toEqual(['length', 'area', 'weight', 'moment', undefined, undefined]);
    expect(['Arm (in)', 'Moment (lb·in)', 'Growth (%)', 'Qty'].map((label) => labelIn(label, 'mm-kg'))).toEqual([
      'Arm (mm)',
      'Moment (kg·mm)',
      'Growth (%)',
      'Qty',
    ]);
    expect(labelIn('Shear (lb)', 'mm-kg', 'force')).toBe('Shear (N)');
  });
});

describe('quantities', () => {
  const [inch, metric] = [quantities('in-lb'), quantities('mm-kg')];

  it('are said about as exactly in either system', () => {
    expect([inch.say(12.5, 'weight', 2), metric.say(12.5, 'weight', 2)]).toEqual(['12.50 lb', '5.670 kg']);
    expect([inch.say(80, 'length', 2), metric.say(80, 'length', 2)]).toEqual(['80.00 in', '2,032.0 mm']);
    expect([inch.bare(100, 'moment', 1), metric.bare(100, 'moment', 1)]).toEqual(['100.0', '1,152']);
  });

  it('are told with more decimals where they would read 0', () => {
    expect(metric.tell(0.0004, 'length', 2)).toBe('0.01 mm');
    expect(inch.tell(0.004, 'length', 1)).toBe('0.004 in');
    expect(inch.tell(0, 'length', 1)).toBe('0.0 in');
  });

  it('are written as the place writes numbers', () => {
    const german = quantities('mm-kg', (value, places) => value.toFixed(places).replace('.', ','));
    expect([german.say(12.5, 'weight', 2), german.tell(0.0004, 'length', 2)]).toEqual(['5,670 kg', '0,01 mm']);
  });

  it('are written in English as the runtime writes them, with a real minus and no negative nought', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.double({ min: -1e6, max: 1e6, noNaN: true }),
          fc.integer({ min: -1e5, max: 1e5 }).map((value) => value / 1000),
        ),
        fc.integer({ min: 0, max: 4 }),
        (value, places) => {
          const plain = value
            .toLocaleString('en-US', { minimumFractionDigits: places, maximumFractionDigits: places })
            .replace(/^-(?=[0.]*$)/, '');
          expect(writeEnglish(value, places)).toBe(plain.replace('-', '−'));
        },
      ),
      { numRuns: 500 },
    );
    expect([writeEnglish(49.285, 2), writeEnglish(-0.001, 2), telling(writeEnglish)(-0.001, 2)]).toEqual([
      '49.29',
      '0.00',
      '−0.001',
    ]);
  });
});

describe('numbers in English, grouped by hand', () => {
  it('read as the languages of the machine write them', () => {
    const values = [
      0,
      -0,
      0.5,
      1.005,
      999.5,
      999.995,
      1000,
      1479.55,
      -1479.55,
      49.285,
      1e-7,
      -1e-7,
      123456.789,
      2 ** 52 + 0.5,
      1e15,
      -0.004,
    ];
    for (let k = 1; k < 3000; k++)
      values.push(((k * 7919) % 1e6) / 8, ((k * 104729) % 1e7) / 1000, -((k * 31) % 5000) / 200);
    for (const places of [0, 1, 2, 3, 4]) {
      const format = new Intl.NumberFormat('en-US', { minimumFractionDigits: places, maximumFractionDigits: places });
      for (const value of values) {
        const text = format.format(value);
        const wanted = /[1-9]/.test(text) ? text.replace('-', '−') : text.replace('-', '');
        expect(writeEnglish(value, places), `${value} to ${places}`).toBe(wanted);
      }
    }
  });
});

describe('a number in a text', () => {
  it.each([
    ['12', 12],
    ['-0.5', -0.5],
    ['.032', 0.032],
    ['12.', 12],
    ['1e-3', 0.001],
    ['1e999', undefined],
    ['3/32', undefined],
    ['1,5', undefined],
    ['0x10', undefined],
    ['', undefined],
  ])('decimals alone: %j', (text, value) => {
    expect(decimalNumber(text)).toBe(value);
  });

  it.each([
    ['3/32', 3 / 32],
    ['1 1/4', 1.25],
    ['-1-1/2', -1.5],
    ['2/0', undefined],
    ['1.5', 1.5],
    ['1 / 4', undefined],
  ])('decimals and fractions: %j', (text, value) => {
    expect(plainNumber(text)).toBe(value);
  });

  it('is told from the unit behind it', () => {
    expect(typedNumber('1 1/4"')).toEqual({ value: 1.25, sign: 'in', known: true });
    expect(leadingNumber(' 12 1/2 sq ft ')).toEqual({ value: 12.5, rest: 'sq ft' });
    expect(leadingNumber('1e3ft²')).toEqual({ value: 1000, rest: 'ft²' });
    expect(leadingNumber('1.2.3 ft')).toEqual({ value: 1.2, rest: '.3 ft' });
    expect(leadingNumber('ft 3')).toBeUndefined();
  });

  it.each([
    ['1,250.50', 'dot', '1250.50'],
    ['12,5', 'dot', '12,5'],
    ['12,5 kg', 'mixed', '12.5 kg'],
    ['1.250,5', 'mixed', '1250.5'],
    ['1.250', 'mixed', '1.250'],
    ['1.250', 'comma', '1250'],
    ['0,25', 'comma', '0.25'],
  ] as const)('%s in a list with decimals of kind %s', (text, decimals, written) => {
    expect(withDot(text, decimals)).toBe(written);
  });
});
