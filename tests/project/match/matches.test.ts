/** The sheet Matches, and what the project's one reader of parts makes of it. */
import { cellsWorkbook, readProject } from '../../helpers/project';
import { describe, expect, it } from 'vitest';
import {
  findLists,
  fitSentence,
  GAUGE,
  guessMatch,
  hasProject,
  listTops,
  projectTops,
  matchEdits,
  meaningLabel,
  placeOfRow,
  readMatches,
  readParts,
  rematch,
  summarise,
  unitsOfProject,
} from '../../../src/project';
import type { Cell } from '../../../src/sheet';
import { valuesOf } from '../sheets';

const HEADER = ['Sheet', 'Header', 'Means', 'Unit', 'Read as'];
const WING: Cell[][] = [
  ['Wing of an invented airplane'],
  ['Group', 'Part name', 'Qty', 'Weight each', 'Station mm'],
  ['Spar', 'Cap', 4, 2.5, 1500],
  [null, 'Web', 1, 6, '1.6 m'],
  ['Group', 'Part name', 'Qty', 'Weight each', 'Station mm'],
  ['Ribs', 'Nose rib', 10, 0.2, 1200],
  [null, null, null, 18, null],
];
const TAIL: Cell[][] = [
  ['Part', 'Mass (kg)'],
  ['Fin', 2],
];
const MATCHED: Cell[][] = [
  ['What columns mean'],
  HEADER,
  ['Wing', 'Group', 'Component', '', 'as above'],
  ['Wing', 'Part name', 'Part', '', ''],
  ['Wing', 'Qty', 'Qty', '', ''],
  ['Wing', 'Weight each', 'Weight', 'lb', ''],
  ['Wing', 'Station mm', 'Arm', '', ''],
  ['Tail', 'Part', 'Part', '', ''],
  ['Tail', 'Mass (kg)', 'Weight', '', ''],
  ['Tail', '(sheet name)', 'Component', '', ''],
];
describe('matched sheets', () => {
  it('are one list of parts, each cell named where it stands', () => {
    const values = valuesOf({ Wing: WING, Tail: TAIL, Matches: MATCHED });
    const parts = readParts(values)!;
    expect(
      parts.rows.map(({ row, component, part, weight, arm }) => {
        const place = placeOfRow(parts.form, row);
        return [place.head.sheet, place.row, component, part, weight, arm];
      }),
    ).toEqual([
      ['Wing', 2, 'Spar', 'Cap', 10, expect.closeTo(1500 / 25.4, 9)],
      ['Wing', 3, 'Spar', 'Web', 6, expect.closeTo(1600 / 25.4, 9)],
      ['Wing', 5, 'Ribs', 'Nose rib', 2, expect.closeTo(1200 / 25.4, 9)],
      ['Tail', 1, 'Tail', 'Fin', expect.closeTo(2 / 0.45359237, 9), undefined],
    ]);
    expect(parts.problems).toEqual([
      { sheet: 'Wing', cell: 'A5', message: 'repeats the header: the row is left out' },
      { sheet: 'Wing', cell: 'D7', message: 'is the sum of the rows above: the row is left out' },
    ]);
    const summary = summarise(values)!;
    expect(summary.components.map(({ name, weight }) => [name, Number(weight.toFixed(6))])).toEqual([
      ['Spar', 16],
      ['Ribs', 2],
      ['Tail', 4.409245],
    ]);
    expect(summary.problems.filter(({ sheet }) => sheet === 'Tail')).toEqual([
      {
        sheet: 'Tail',
        cell: 'A1',
        message: 'starts a header without a column Arm: the rows below it are not in the balance',
      },
    ]);
    expect(unitsOfProject(values)).toBe('in-lb');
  });

  it('are read through the port, in whatever case they are named', async () => {
    const { workbook } = cellsWorkbook({ Wing: WING, Tail: TAIL, Notes: [['x']], Matches: MATCHED });
    expect(hasProject(await readProject(workbook, projectTops))).toBe(true);
    const { values } = await readProject(workbook);
    expect([values('wing')?.length, values('Notes')]).toEqual([WING.length, undefined]);
    expect(readParts(values)!.rows.length).toBe(4);
  });

  it('are named by the cell of the match where a header is gone', () => {
    const renamed = (rows: readonly number[]): Cell[][] =>
      WING.map((line, row) =>
        rows.includes(row) ? line.map((cell) => (cell === 'Weight each' ? 'Pounds each' : cell)) : line,
      );
    // The header repeated further down would be found, and the rows above it lost.
    expect(readParts(valuesOf({ Wing: renamed([1]), Matches: MATCHED.slice(0, 7) }))!.problems).toContainEqual({
      sheet: 'Wing',
      cell: 'D3',
      message: 'is above header row 5, the one on the sheet Matches: the rows above that are left out',
    });
    const { matches, problems } = readMatches(valuesOf({ Wing: renamed([1, 4]), Matches: MATCHED.slice(0, 7) }));
    expect(matches).toEqual([]);
    expect(problems).toEqual([
      {
        sheet: 'Matches',
        cell: 'B6',
        message: 'no header row of Wing has "Weight each" with the others: type the headers as they stand there',
      },
    ]);
    expect(readMatches(valuesOf({ Matches: MATCHED.slice(0, 7) })).problems[0]!.message).toContain(
      'there is no sheet "Wing"',
    );
  });

  it('are written on a sheet that is read again as it was, and replaced there', () => {
    const guess = guessMatch('Wing', WING)!;
    const write = (there: Cell[][] | undefined): Cell[][] => {
      const cells: Cell[][] = there ? there.map((line) => [...line]) : [];
      for (const edit of matchEdits(there, [guess.match])) {
        if (edit.kind !== 'write') continue;
        edit.cells.forEach((line, row) =>
          line.forEach((cell, column) => {
            while (cells.length <= edit.range.row + row) cells.push([]);
            cells[edit.range.row + row]![edit.range.column + column] = cell as Cell;
          }),
        );
      }
      return cells.map((line) => Array.from(line, (cell) => cell ?? null));
    };
    const once = write(undefined);
    expect(readMatches(valuesOf({ Wing: WING, Matches: once }))).toEqual({ matches: [guess.match], problems: [] });
    const again = write(MATCHED);
    const read = readMatches(valuesOf({ Wing: WING, Tail: TAIL, Matches: again }));
    expect(read.problems).toEqual([]);
    expect(read.matches.map(({ sheet, columns }) => [sheet, columns.length])).toEqual([
      ['Tail', 2],
      ['Wing', 5],
    ]);
  });

  it('change what follows when a column means something else', () => {
    const { match } = guessMatch('Tail', TAIL)!;
    const { match: other } = rematch(match, TAIL, 0, 'component');
    expect(other.columns.map(({ means }) => means)).toEqual(['component', 'weight']);
    expect(other.component).toBeUndefined();
    expect(rematch(other, TAIL, 0, undefined).match.component).toBe('sheet');
  });
});

describe('a sheet that is no list of parts', () => {
  it.each<[string, Cell[][]]>([
    [
      'a price list',
      [
        ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'Supplier'],
        ['x', 'sheet', 'each', '4', 5, 'USD', 'y'],
      ],
    ],
    ['notes', [['Part of the tail'], ['Weight is not known yet']]],
    ['numbers', [[1, 2, 3]]],
  ])('is not offered: %s', (_what, cells) => expect(guessMatch('Any', cells)).toBeUndefined());
});

describe('a sheet Parts', () => {
  const list = (label: string, ...more: Cell[][]): Cell[][] => [
    ['Component', 'Part', 'Qty', label],
    ['Wing', 'Rib', 10, 0.5],
    ['Wing', 'Spar', 2, 6],
    ...more,
  ];

  it('whose weights are of each piece is not summed in silence, but offered for matching', async () => {
    for (const Parts of [list('Weight (lb each)'), list('Weight (lb)', ['Total', null, null, 17])]) {
      expect(readParts(valuesOf({ Parts }))).toBeUndefined();
      const [guess] = findLists(await readProject(cellsWorkbook({ Parts }).workbook, listTops));
      expect(guess?.match.columns.at(-1)).toMatchObject({ means: 'weight', unit: 'lb', readAs: 'each piece' });
      expect(
        readParts(
          valuesOf({
            Parts,
            Matches: [
              HEADER,
              ...guess!.match.columns.map(({ header, means, readAs }) => [
                'Parts',
                header,
                means === 'quantity' ? 'Qty' : means,
                '',
                readAs,
              ]),
            ],
          }),
        )!.rows.map(({ weight }) => weight),
      ).toEqual([5, 12]);
    }
  });

  it('with a total of its rows is read as before', () => {
    const parts = readParts(valuesOf({ Parts: list('Weight (lb)', ['Total', null, null, 6.5]) }))!;
    expect(parts.rows.map(({ weight }) => weight)).toEqual([0.5, 6]);
  });
});

describe('numbers of gauge in a column without a unit', () => {
  const unitOf = (...cells: Cell[]): string | undefined =>
    guessMatch('Tail', [
      ['Part name', 'Qty', 'Gauge', 'Weight each'],
      ...cells.map((cell): Cell[] => ['rib', 1, cell, 0.1]),
    ])!.match.columns.find(({ means }) => means === 'thickness')?.unit;

  it('are gauges beside thicknesses that say so', () => {
    expect(unitOf(20, 22, '.025 in', '.016', null)).toBe(GAUGE);
    expect(unitOf('20 ga', 0.032)).toBe(GAUGE);
    expect(unitOf(20, 20, 22)).toBe(GAUGE);
  });

  it('are none where they may be millimetres, or all are thicknesses', () => {
    expect(unitOf(1, 1.5, 0.8, 2)).not.toBe(GAUGE);
    expect(unitOf(0.02, 0.016)).toBe('in');
  });
});

describe('a unit in some cells of a column', () => {
  const unitOf = (...cells: Cell[]): string | undefined =>
    guessMatch('Tail', [
      ['Part name', 'Qty', 'Thickness', 'Weight each'],
      ...cells.map((cell): Cell[] => ['rib', 1, cell, 0.1]),
    ])!.match.columns.find(({ means }) => means === 'thickness')?.unit;

  it('is the column’s where half of them name it, and else that of these cells alone', () => {
    expect(unitOf('0.8 mm', '1 mm', 1.2)).toBe('mm');
    expect(unitOf('.025', 0.02, '0.8 mm')).toBe('in');
  });

  it('is millimetres where bare numbers are no sheet in inches', () => {
    expect(unitOf(0.8, '0.8 mm', 1, 1.2)).toBe('mm');
    expect(unitOf(0.8, 1, 1.2, 0.4)).toBe('mm');
    expect(unitOf(0.25, 0.063, 0.5)).toBe('in');
  });
});

describe('a list that says sizes and no weights', () => {
  const SIZES: Cell[][] = [
    ['TAIL CONE'],
    ['Part no', 'Qty', 'Material', 'Thickness', 'Length (in)', 'Width (mm)', 'Station'],
    ['TC-1', 2, '2024-T3', '.025', 60, 571.5, 150],
    ['TC-3', 1, '6061-T6', 0.02, '5 ft', 355.6, 150],
    ['TC-10', '2 ea', '6061-T6', '0.8 mm', 18, '12 in', 130],
    ['TC-15', 1, 'Unobtanium', 0.025, 10, 254, 160],
    ['TC-16', 1, '6061-T6', 0.025, 10, null, 160],
    ['TC-17', 1, 'Unobtanium', 0.025, 10, 254, 160],
    ['TC-18', 4, null, null, null, null, 160],
    ['Total'],
  ];
  const { match, missing } = guessMatch('Cone', SIZES)!;
  const Matches: Cell[][] = [
    HEADER,
    ...match.columns.map(({ header, means, unit }) => ['Cone', header, meaningLabel(means), unit, '']),
  ];
  const values = valuesOf({ Cone: SIZES, Matches });

  it('is a list of parts', () => {
    expect(missing).toEqual([]);
    expect(match.columns.map(({ header, means, unit }) => [header, means, unit])).toEqual([
      ['Part no', 'part', ''],
      ['Qty', 'quantity', ''],
      ['Material', 'material', ''],
      ['Thickness', 'thickness', 'in'],
      ['Length (in)', 'cutLength', 'in'],
      ['Width (mm)', 'cutWidth', 'mm'],
      ['Station', 'arm', 'in'],
    ]);
    const lacking = (...gone: string[]) =>
      guessMatch(
        'Cone',
        SIZES.map((line) => line.filter((_cell, column) => !gone.includes(String(SIZES[1]![column])))),
      )!;
    expect(lacking('Thickness').missing).toEqual(['weight']);
    expect(lacking('Width (mm)').missing).toEqual(['weight']);
    expect(fitSentence(lacking('Thickness', 'Station'))).toBe(
      'The sheet Cone has Part no, Qty, Material, Length (in) and Width (mm), but no column for Weight (or Material, Thickness, Cut length and Cut width) or Arm.',
    );
  });

  it('is weighed by length × width × thickness and the density of its material', () => {
    // g/cm³ by the Aluminum Association's nominal densities: 2024 2.78, 6061 2.70.
    const pounds = (cubicInches: number, density: number): number => (cubicInches * 2.54 ** 3 * density) / 453.59237;
    const weights = readParts(values)!.rows.map(({ part, weight, isBySize }) => [part, weight, isBySize]);
    expect(weights).toEqual([
      ['TC-1', expect.closeTo(pounds(2 * 60 * 22.5 * 0.025, 2.78), 9), true],
      ['TC-3', expect.closeTo(pounds(60 * 14 * 0.02, 2.7), 9), true],
      ['TC-10', expect.closeTo(pounds((2 * 18 * 12 * 0.8) / 25.4, 2.7), 9), true],
      ['TC-15', undefined, false],
      ['TC-16', undefined, false],
      ['TC-17', undefined, false],
      ['TC-18', undefined, false],
    ]);
    expect(summarise(values)!.bySize).toBe(3);
  });

  it('names the parts without a weight once, and each material that is not known', () => {
    expect(readParts(values)!.problems).toEqual([
      {
        sheet: 'Cone',
        cell: 'A6',
        message: 'TC-15, TC-16, TC-17 and 1 more have no weight and are left out of the sums',
      },
      {
        sheet: 'Cone',
        cell: 'C6',
        message: expect.stringContaining('got "Unobtanium"; takes a material of the table'),
      },
    ]);
  });

  it('takes a density that is typed for a material', () => {
    // 10 × 12 × .025 in³ of .1 lb/in³; the other row lacks its width and is told as that alone.
    const Cone: Cell[][] = [
      SIZES[1]!,
      ['TC-1', 1, 0.1, 0.025, 10, 12 * 25.4, 150],
      ['TC-2', 1, 0.1, 0.025, 10, null, 150],
    ];
    const { rows, problems } = readParts(valuesOf({ Cone, Matches }))!;
    expect(rows.map(({ weight }) => weight)).toEqual([expect.closeTo(0.3, 9), undefined]);
    expect(problems.map(({ message }) => message)).toEqual(['TC-2 has no weight and is left out of the sums']);
  });

  it('counts a weight that a cell states before that', () => {
    const Cone = SIZES.slice(0, 4).map((line, row) => [...line, row === 1 ? 'Weight each (lb)' : row === 2 ? 3 : null]);
    const parts = readParts(
      valuesOf({ Cone, Matches: [...Matches, ['Cone', 'Weight each (lb)', 'Weight', 'lb', 'each piece']] }),
    )!;
    expect(parts.rows.map(({ weight, isBySize }) => [weight, isBySize])).toEqual([
      [6, false],
      [expect.closeTo(1.6387, 3), true],
    ]);
  });
});

it('a size that is one text is length and width, and thickness where it has three sides', () => {
  const Cone: Cell[][] = [
    ['Part', 'Qty', 'Alloy', 'Thk', 'Size'],
    ['Skin', 2, '6061-T6', 0.02, '22.5 x 60'],
    ['Web', 1, '6061-T6', null, '.032 × 4 × 12 in'],
    ['Rib', 4, '6061-T6', '0.8 mm', '300 x 100 mm'],
    ['Angle', 1, '6061-T6', 0.063, '3/4 X 3/4 X 48'],
    ['Clip', 1, '6061-T6', 0.032, '1 x 2 x .032'],
    ['Bar', 1, '6061-T6', null, '.75 x .75 x 10'],
    ['Block', 1, '6061-T6', null, 'see drawing'],
  ];
  const { match, missing } = guessMatch('Cone', Cone)!;
  expect(missing).toEqual([]);
  expect(match.columns.at(-1)).toMatchObject({ header: 'Size', means: 'cutLength', unit: 'in' });
  const without = Cone.map((line) => line.filter((_cell, column) => column !== 3));
  expect(guessMatch('Cone', without)!.missing).toEqual([]);
  const Matches: Cell[][] = [
    HEADER,
    ...match.columns.map(({ header, means, unit }) => ['Cone', header, meaningLabel(means), unit, '']),
  ];
  const { rows, problems } = readParts(valuesOf({ Cone, Matches }))!;
  const near = (value: number): unknown => expect.closeTo(value, 9);
  expect(rows.map(({ part, cutLength, cutWidth, thickness }) => [part, cutLength, cutWidth, thickness])).toEqual([
    ['Skin', 60, 22.5, 0.02],
    ['Web', 12, 4, 0.032],
    ['Rib', near(300 / 25.4), near(100 / 25.4), near(0.8 / 25.4)],
    ['Angle', undefined, undefined, 0.063],
    ['Clip', 2, 1, 0.032],
    ['Bar', undefined, undefined, undefined],
    ['Block', undefined, undefined, undefined],
  ]);
  expect(problems.map(({ cell, message }) => [cell, message])).toEqual([
    ['E5', 'got "3/4 X 3/4 X 48"; takes inches above 0'],
    ['E7', 'got ".75 x .75 x 10"; takes inches above 0'],
    ['E8', 'got "see drawing"; takes inches above 0'],
    ['A5', 'Angle, Bar, Block have no weight and are left out of the sums'],
  ]);
});

it('a part of the sheet Parts that has no weight yet is named, and one of which there are none is not', () => {
  const Parts: Cell[][] = [
    ['Component', 'Part', 'Qty', 'Weight (lb)'],
    ['Wing', 'Rib', 10, 5],
    ['Wing', 'Spar', 2, null],
    ['Wing', 'Tip', 0, null],
    ['Wing', null, 1, null],
  ];
  expect(readParts(valuesOf({ Parts }))!.problems).toEqual([
    { sheet: 'Parts', cell: 'D3', message: 'Spar has no weight and is left out of the sums' },
  ]);
});
