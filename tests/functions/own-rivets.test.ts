/** A kit with rivets of its own, through the functions as a sheet calls them: picked, weighed, checked, priced, compared. */
import { describe, expect, it } from 'vitest';
import { call, catalogue, findDefinition } from '../../src/functions';
import { CellError, type Argument, type Cell, type Matrix } from '../../src/sheet';
import { KIT } from '../helpers/kit-rivets';

const OWN = KIT as Matrix;
const tare = (name: string, ...args: Argument[]) => call(findDefinition(name)!, args);
const message = (cell: unknown): string => (cell as CellError).message;

const PRICES: Matrix = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
  ['PR-4-2', 'rivet', '1000', '', 60, 'USD', ''],
  ['PR-4-3', 'rivet', '1000', '', 70, 'USD', ''],
  ['NX123-4-5', 'rivet', 'lb', '', 40, 'USD', ''],
  ['MS20470AD4-4', 'rivet', 'lb', '', 30, 'USD', ''],
];

describe('rivets, the last parameter of every function of rivets that reads or picks one', () => {
  it.each([
    'PICK',
    'WEIGHT',
    'ABOUT',
    'PERPOUND',
    'HOLE',
    'DRILL',
    'HOLEMETAL',
    'SHEAR',
    'STRENGTH',
    'PERINCH',
    'CHECK',
    'COMPARE',
  ])('RIVET.%s', (name) => {
    const names = findDefinition(`RIVET.${name}`)!.parameters.map((one) => one.name);
    expect(names.at(-1)).toBe('rivets');
    expect(names.indexOf('units')).toBeGreaterThan(0);
    expect(names.indexOf('units')).toBeLessThan(names.length - 1);
  });

  it('and no function took a parameter away or put one before units', () => {
    const first = (name: string) =>
      findDefinition(name)!
        .parameters.map((one) => one.name)
        .join(' ');
    expect(first('RIVET.WEIGHT')).toBe('rivet quantity state units rivets');
    expect(first('RIVET.CHECK')).toMatch(/^rivet grip thickest_sheet pitch edge units /);
    expect(first('RIVET.COMPARE')).toMatch(/^grips diameters counts options prices labour_rate minutes_each units /);
    expect(first('PRICE.COST')).toBe('item quantity prices units rivets');
    expect(catalogue.length).toBeGreaterThan(60);
  });
});

describe('the functions take the kit’s rivets', () => {
  it('picks, weighs and checks in one column', () => {
    const picked = tare('RIVET.PICK', 'blind', 0.125, [[0.08], [0.15], [0.3]], null, null, null, OWN) as Matrix;
    expect(picked.flat()).toEqual(['PR-4-2', 'PR-4-3', 'BLIND-AA-45']);
    expect(tare('RIVET.PICK', 'blind', 0.125, 0.08, null, 'AA', null, OWN)).toBe('BLIND-AA-42');
    const weights = tare('RIVET.WEIGHT', picked, 1000, null, null, OWN) as Matrix;
    expect(weights[0]![0]).toBeCloseTo(0.62, 12);
    expect(weights[1]![0]).toBeCloseTo(0.66, 12);
    expect(tare('RIVET.WEIGHT', 'PR-4-3', 50, 'bought', 'mm-kg', OWN)).toBeCloseTo(0.036, 9);
    expect(tare('RIVET.CHECK', 'PR-4-2', 0.08, 0.04, 1, 0.3, null, null, null, null, OWN)).toBe('ok');
    expect(tare('RIVET.SHEAR', 'PR-4-2', null, OWN)).toBe(260);
    expect(tare('RIVET.DRILL', 'NX123-4-5', null, OWN)).toBe('#30');
    expect(tare('RIVET.HOLE', 'PR-4-2', null, OWN)).toBeCloseTo(0.1285, 9);
    expect(tare('RIVET.STRENGTH', 'PR-4-2', 0.04, '6061-T6', null, null, OWN)).toMatch(
      /^260 lbf: the rivet governs, shear of the rivet alone; the sheet is not looked at .*; for a first look; the designer’s drawing decides$/,
    );
    expect(tare('RIVET.ABOUT', 'PR-4-3', null, OWN)).toMatch(
      /computed: hole and drill: those of the size; source: weighed$/,
    );
  });

  it('says what is unknown, and what is wrong with a row, in that cell alone', () => {
    const result = tare('RIVET.WEIGHT', [['PR-4-2'], ['PR-5-9'], ['4412'], [4412]], 1, null, null, OWN) as Matrix;
    expect(result[0]![0]).toBeCloseTo(0.00062, 12);
    expect(message(result[1]![0])).toMatch(/^rivet: got "PR-5-9"; takes .*or a label of the table of rivets/);
    expect((result[2]![0] as CellError).code).toBe('#N/A');
    expect(message(result[3]![0])).toMatch(/weight installed is known/);
    const broken: Matrix = OWN.map((row, at) => (at === 2 ? ['PR-4-3', 'blind', 4] : row));
    expect(message(tare('RIVET.WEIGHT', 'PR-4-3', 1, null, null, broken))).toMatch(/row 3, Diameter: got 4/);
    expect(tare('RIVET.WEIGHT', 'PR-4-2', 1000, null, null, broken)).toBeCloseTo(0.62, 12);
    expect(message(tare('RIVET.WEIGHT', 'PR-4-2', 1, null, null, [['x', 'y']]))).toMatch(
      /^rivets: got .*Rivet, Kind, Diameter/,
    );
  });

  it('a blank table, as a new sheet has it, changes nothing', () => {
    const blank: Matrix = [OWN[0]!, OWN[0]!.map((): Cell => ''), OWN[0]!.map((): Cell => null)];
    expect(tare('RIVET.PICK', 'blind', 0.125, 0.08, null, null, null, blank)).toBe('BLIND-AA-42');
  });

  it('prices a rivet of its own that is sold by the pound by its own weight', () => {
    const each = 40 * (tare('RIVET.WEIGHT', 'NX123-4-5', 1, 'bought', null, OWN) as number);
    expect(tare('PRICE.EACH', 'NX123-4-5', PRICES, null, null, OWN)).toBeCloseTo(each, 12);
    expect(message(tare('PRICE.EACH', 'NX123-4-5', PRICES))).toMatch(/sold by weight/);
    expect((tare('PRICE.BUY', 'NX123-4-5', 100, PRICES, null, OWN) as Matrix)[0]![2]).toBe(40);
  });

  it('compares: hours, tools in the total, and the joints that no longer pass', () => {
    const tools: Matrix = [
      ['Tool', 'For', 'Tool price', 'Owned'],
      ['Squeezer', 'solid', 200, 'no'],
      ['Puller', 'blind', 90, 'yes'],
    ];
    const rows = tare(
      'RIVET.COMPARE',
      [[0.072], [0.072]],
      [[3 / 32], [0.125]],
      [[600], [400]],
      [['solid 1/8'], ['PR-4-2'], ['blind 1/8']],
      PRICES,
      10,
      null,
      null,
      [[1], [1]],
      [[0.2], [0.3]],
      [[0.032], [0.04]],
      tools,
      OWN,
    ) as Matrix;
    const [solid, named, picked] = rows;
    expect(solid!.slice(8)).toEqual([25, 200, 1]);
    expect(named!.slice(8)).toEqual([12.5, 0, 1]);
    expect(picked).toEqual(named);
    expect(named![1]).toBeCloseTo(0.62, 9);
    expect(solid![5]).toBe(40 + 250 + 200);
    expect(named![6]).toBe(60 + 125 - 490);
  });
});
