/** Numbers that are computed as typed, and asked about: radians for degrees, millimetres for inches. */
import { describe, expect, it } from 'vitest';
import { askedInFormulas, weightsModel } from '../../src/project';
import type { Cell } from '../../src/sheet';

const PARTS_HEADER = ['Component', 'Part', 'Qty', 'Material', 'Thickness (in)', 'Flat area (in²)', 'Weight (lb)'];

/** Asks about one formula in the flat area of a part; the parts list has the angles of `cells` in its row. */
function asked(formula: string, cells: readonly Cell[] = []): string[] {
  const part: Cell[] = ['Ribs', 'web', 1, '6061-T6', 0.02, 3, 0.1, ...cells];
  const lines: Cell[][] = [PARTS_HEADER, part];
  const problems = askedInFormulas({
    values: (sheet) => (sheet === 'Parts' ? lines : undefined),
    formulas: (sheet) =>
      sheet === 'Parts'
        ? lines.map((line, row) => line.map((_none, column) => (row === 1 && column === 5 ? formula : null)))
        : undefined,
  });
  return problems.map(({ sheet, cell, message }) => `${sheet}!${cell} ${message}`);
}

describe('a bend angle under 5° in a formula', () => {
  it.each([
    ['=12*TARE.BEND.ALLOWANCE(0.125,0.032,1.5708)', '1.571°'],
    ['=2*tare.bend.setback(.125,.032,PI()/2)', '1.571°'],
    ['=2*TARE.BEND.DEDUCTION(0.125,0.032,RADIANS(90))', '1.571°'],
    ['=2*TARE.FLAT.PROFILE({1,2,1},{1.57,-1.57},0.04,0.16)', '1.57°'],
    ['=TARE.BEND.CHECK(1,0.032,0.125,"6061-T6",H2)', '0.7°'],
    ['=IF(A2="","",TARE.BEND.ALLOWANCE(0.125,0.032,Parts!$H$2))', '0.7°'],
  ])('%s is named by its cell', async (formula, said) => {
    const [problem, ...more] = asked(formula, [0.7]);
    expect(problem).toMatch(/^Parts!F2 gives TARE\.(BEND|FLAT)\.\w+ a bend of /);
    expect(problem).toContain(`a bend of ${said}: were radians meant? Type degrees, such as 90.`);
    expect(more).toEqual([]);
  });

  it.each([
    '=2*TARE.BEND.ALLOWANCE(0.125,0.032,45)',
    '=2*TARE.BEND.ALLOWANCE(0.125,0.032)',
    '=2*TARE.BEND.ALLOWANCE(0.125,0.032,H2)',
    '=2*TARE.FLAT.PROFILE({1,2,1},{90,-90},0.04,0.16)',
    '=60*TARE.FLAT.ANGLE(1,1.5,0.032,0.125)',
    '="TARE.BEND.SETBACK(1,1,1.57)"',
    '=TARE.BEND.SETBACK(1,',
  ])('%s has none', async (formula) => expect(asked(formula, ['90'])).toEqual([]));
});

describe('a formula that is filled down and across', () => {
  const ask = (formulas: readonly (readonly (string | null)[])[], angles: readonly Cell[]): string[] => {
    const lines: Cell[][] = [
      PARTS_HEADER,
      ...angles.map((angle): Cell[] => ['Ribs', 'web', 1, '6061-T6', 0.02, 3, 0.1, angle]),
    ];
    return askedInFormulas({
      values: (sheet) => (sheet === 'Parts' ? lines : undefined),
      formulas: (sheet) => (sheet === 'Parts' ? [[], ...formulas] : undefined),
    }).map(({ cell, message }) => `${cell} ${/a bend of (\S+):/.exec(message)?.[1]}`);
  };
  const allowance = (angle: string): string => `=12*TARE.BEND.ALLOWANCE(0.125,0.032,${angle})`;

  it('is asked about by the angle of its own row', () => {
    const formulas = [2, 3, 4].map((row) => [null, null, null, null, null, allowance(`H${row}`)]);
    expect(ask(formulas, [90, 1.57, 45])).toEqual(['F3 1.57°']);
  });

  it('reads the one cell that all name', () => {
    const formulas = [2, 3].map((row) => [null, null, allowance('$H$3'), null, null, allowance(`$H${row}`)]);
    expect(ask(formulas, [90, 0.8])).toEqual(['C2 0.8°', 'C3 0.8°', 'F3 0.8°']);
  });
});

describe('a thickness of half an inch to one inch', () => {
  it('in a formula is named by its cell, and not where the units are metric', async () => {
    expect(asked('=1*TARE.WEIGHT.SHEET(100,.8,"6061-T6")')).toEqual([
      'Parts!F2 gives TARE.WEIGHT.SHEET a thickness of 0.8 inches: were millimetres meant? It is counted as typed',
    ]);
    expect(asked('=1*TARE.WEIGHT.SHEET(100,0.8,"6061-T6",1,"mm-kg")')).toEqual([]);
    expect(asked('=1*TARE.WEIGHT.SHEET(100,0.063,"6061-T6")')).toEqual([]);
  });

  it('in the sheets of a joint is named by its cell', () => {
    const parts: Cell[][] = [PARTS_HEADER, ['Ribs', 'web', 1, '6061-T6', 0.8, 3, 0.1]];
    const joints = (unit: string): Cell[][] => [
      ['Joint', 'Component', `Sheet 1 (${unit})`, `Sheet 2 (${unit})`, 'Style', 'Rivets'],
      ['lap', 'Ribs', 0.032, 0.8, 'universal', 10],
    ];
    const problems = (unit: string): string[] =>
      weightsModel((sheet) => ({ Parts: parts, Joints: joints(unit) })[sheet], 'in-lb')!.problems.map(
        ({ sheet, cell, message }) => `${sheet}!${cell} ${message}`,
      );
    expect(problems('in')).toEqual([
      'Parts!E2 is 0.8 inches: were millimetres meant? It is counted as typed',
      'Joints!D2 is 0.8 inches: were millimetres meant? It is counted as typed',
    ]);
    expect(problems('mm').filter((one) => one.startsWith('Joints'))).toEqual([]);
  });
});

describe('a formula that gives another measure than its column takes', () => {
  it.each([
    [
      '=TARE.FLAT.ANGLE(1,1.5,0.032,0.125)',
      'Parts!F2 is a length from TARE.FLAT.ANGLE, and the column takes an area. Multiply it by the length of the part',
    ],
    [
      '=TARE.WEIGHT.SHEET(100,0.032,"6061-T6")',
      'Parts!F2 is a weight from TARE.WEIGHT.SHEET, and the column takes an area',
    ],
  ])('%s is named', async (formula, said) => expect(asked(formula)).toEqual([said]));

  it.each([
    '=60*TARE.FLAT.ANGLE(1,1.5,0.032,0.125)',
    '=TARE.AREA.RECT(60,1.25)',
    '=TARE.FLAT.ANGLE(1,1.5,0.032,0.125)*A2',
  ])('%s is not', async (formula) => expect(asked(formula)).toEqual([]));
});

describe('a name that formulas of a sheet take for another', () => {
  const problems = (...names: string[]): string[] =>
    weightsModel(
      (sheet) =>
        ({
          Parts: [PARTS_HEADER, ...names.map((name): Cell[] => [name, 'web', 1, '6061-T6', 0.02, 3, 0.1])],
          Budget: [
            ['Component', 'Budget (lb)'],
            ['Ribs', 1],
          ],
        })[sheet],
      'in-lb',
    )!.problems.map(({ sheet, cell, message }) => `${sheet}!${cell} ${message}`);

  it.each(['Ribs ', ' Ribs', 'Ribs\u00a0'])('%j is named by its cell', (name) => {
    const said = `is "${name}", and "Ribs" above: formulas such as SUMIFS count them apart. Type the name the same way, without extra spaces`;
    expect(problems('Ribs', name)).toEqual([`Parts!A3 ${said}`]);
  });

  it('is named on the sheet that spells it second', () => {
    expect(problems('Ribs ')[0]).toMatch(/^Budget!A2 is "Ribs", and "Ribs " above/);
  });

  it('is named on a matched list, by its own sheet and cell', () => {
    const sheets: Record<string, Cell[][]> = {
      Parts: [PARTS_HEADER, ['Ribs', 'web', 1, '6061-T6', 0.02, 3, 0.1]],
      Tail: [
        ['Group', 'Part name', 'Weight lb'],
        [' Ribs', 'nose', 0.2],
      ],
      Matches: [
        ['Sheet', 'Header', 'Means', 'Unit', 'Read as'],
        ['Tail', 'Group', 'Component', null, null],
        ['Tail', 'Part name', 'Part', null, null],
        ['Tail', 'Weight lb', 'Weight', 'lb', 'all pieces'],
      ],
    };
    const cells = weightsModel((sheet) => sheets[sheet], 'in-lb')!.problems.map(
      ({ sheet, cell }) => `${sheet}!${cell}`,
    );
    expect(cells).toEqual(['Tail!A2']);
  });

  it('is not one that differs in capitals alone', () => expect(problems('Ribs', 'RIBS', 'ribs')).toEqual([]));
});
