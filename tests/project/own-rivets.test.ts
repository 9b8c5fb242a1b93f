import { describe, expect, it } from 'vitest';
import { openPriceBook, readPriceList } from '../../src/core/price';
import { bookWithRivets, compareRivets, DEFAULT_TERMS } from '../../src/core/rivet-choice';
import { gatherNeeds, shoppingList } from '../../src/core/shopping';
import { readOwnRivetSheet, readRivetJoints, readRivetOptions, rivetOptions, usualTerms } from '../../src/project';
import type { Cell } from '../../src/sheet';
import { KIT } from '../helpers/kit-rivets';

const JOINT_LABELS = [
  'Joint',
  'Component',
  'Sheet 1 (in)',
  'Sheet 2 (in)',
  'Style',
  'Diameter (in)',
  'Pitch (in)',
  'Edge (in)',
  'Rows',
  'Rivet',
  'Rivets',
  'Flange edge (in)',
  'Head is',
];
const JOINTS: Cell[][] = [
  JOINT_LABELS,
  ['Skin', 'Wing', 0.016, 0.016, 'flush', 3 / 32, 1, 0.25, 1, 'MS20426AD3-3', 300, 0.25, 'dimpled'],
  ['Rib', 'Wing', 0.032, 0.032, 'universal', 3 / 32, 1, 0.25, 1, 'MS20470AD3-3', 200, 0.2, ''],
  ['Spar', 'Wing', 0.04, 0.04, 'blind', 1 / 8, 1, 0.4, 1, 'PR-4-2', 100, 0.3, ''],
];
const OPTIONS: Cell[][] = [
  ['Option', 'Rivets', null, 'Tool', 'For', 'Tool price', 'Owned'],
  ['As designed', 'as designed', null, 'Puller', 'blind', 90, 'no'],
  ['Kit', 'PR-4-2'],
  ['Blind', 'blind 1/8'],
];
const sheets: Record<string, Cell[][]> = {
  Joints: JOINTS,
  'Rivet options': OPTIONS,
  Rivets: [['Rivets of the kit'], ...(KIT as Cell[][])],
};
const values = (name: string) => sheets[name];

describe('the sheet Rivets', () => {
  it('names a wrong cell by its address', () => {
    const wrong = KIT.map((row, at) => (at === 2 ? row.map((cell, column) => (column === 2 ? 'thick' : cell)) : row));
    const read = readOwnRivetSheet((name) => (name === 'Rivets' ? [['Title'], ...(wrong as Cell[][])] : undefined))!;
    expect(read.problems).toEqual([
      { sheet: 'Rivets', cell: 'C4', message: expect.stringMatching(/^Diameter: got "thick"; takes inches/) },
    ]);
    expect(read.rivets.rivets).toHaveLength(5);
  });

  it('is none of ours without the table’s header', () =>
    expect(
      readOwnRivetSheet((name) =>
        name === 'Rivets'
          ? [
              ['a', 'b'],
              [1, 2],
            ]
          : undefined,
      ),
    ).toBeUndefined());
});

describe('joints with rivets of their own', () => {
  const own = readOwnRivetSheet(values)!.rivets;
  const { joints, problems } = readRivetJoints(values, 'in-lb', own)!;

  it('reads what the rules ask for, Edge by its old label', () => {
    expect(problems).toEqual([]);
    expect(joints[0]).toMatchObject({ edge: 0.25, thickestSheet: 0.016, outerSheet: 0.016, rows: 1, head: 'dimpled' });
    expect(joints[2]!.own?.designation).toBe('PR-4-2');
  });

  it('compares them and counts the joints that no longer pass', () => {
    const sheet = readRivetOptions(values, own)!;
    expect(sheet.problems).toEqual([]);
    const list = readPriceList([
      ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency'],
      ['PR-4-2', 'rivet', 'lb', '', 40, 'USD'],
      ['MS20426AD3-3', 'rivet', 'lb', '', 45, 'USD'],
      ['MS20470AD3-3', 'rivet', 'lb', '', 45, 'USD'],
    ]);
    const book = bookWithRivets(openPriceBook(list), own);
    const options = rivetOptions(sheet.options, sheet.exceptions, joints);
    const [designed, kit] = compareRivets(
      joints.slice(1),
      options.map(({ name, kinds }) => ({ name, kinds: Array.isArray(kinds) ? kinds.slice(1) : kinds })),
      book,
      { ...DEFAULT_TERMS, ...sheet.terms },
    );
    if (!designed?.possible || !kit?.possible) throw new Error('refused');
    expect(designed.failing).toEqual([]);
    expect(kit.failing.map(({ joint }) => joint.name)).toEqual(['Wing: Rib']);
    expect(kit.failing[0]!.findings[0]!.what).toMatch(/^edge distance 0.2 in is under 2D = 0.25 in/);
    expect(kit.material.missing).toEqual([]);
    expect(kit.installed).toBeCloseTo(300 * 0.00062, 12);
    expect(kit.toolCost).toBe(90);
  });

  it('a flush joint that is swapped for a domed head no longer passes', () => {
    const [result] = compareRivets(
      joints.slice(0, 1),
      [{ name: '', kinds: { style: 'blind', diameter: 1 / 8 } }],
      openPriceBook({ rows: [], problems: [] }),
    );
    if (!result?.possible) throw new Error('refused');
    expect(result.failing).toHaveLength(1);
    expect(result.failing[0]!.findings.map(({ what }) => what).join()).toMatch(/dimpled for a flush head/);
  });

  it('buys them as rivets, by their own weight', () => {
    const list = readPriceList([
      ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency'],
      ['pr-4-2', 'rivet', 'lb', '', 40, 'USD'],
    ]);
    const book = bookWithRivets(openPriceBook(list), own);
    const needs = gatherNeeds([], [{ component: 'Wing', rivet: 'PR-4-2', count: 1000 }], book, own);
    const { orders } = shoppingList({ needs, bought: [], onHand: [], book, terms: { ...usualTerms('USD'), own } });
    // 1,100 with spares of blind rivets, of which 666.7 go into a pound as bought.
    expect(orders[0]!.lines[0]).toMatchObject({ item: 'pr-4-2', hardware: 'blind rivet', spares: 100 });
    expect(orders[0]!.total).toBe(80);
  });
});
