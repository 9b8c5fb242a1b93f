/** The unit that a sheet's labels name: read by it, shown in it, refused where it cannot be. */
import { describe, expect, it } from 'vitest';
import { piecesPerPound } from '../../src/core/fastener';
import { openPriceBook, readPriceList } from '../../src/core/price';
import { gatherNeeds } from '../../src/core/shopping';
import type { Cell } from '../../src/sheet';
import {
  balanceModels,
  BUDGET,
  caseEdits,
  findFact,
  JOINTS,
  loadEdits,
  LOADING,
  LOG,
  logEdits,
  newBuyingSheet,
  newLogSheet,
  newStockSheet,
  newSurfacesSheet,
  PARTS,
  readBuying,
  readForm,
  readParts,
  readRivetJoints,
  readRivetOptions,
  readStockSheet,
  readSurfaces,
  STOCK,
  summarise,
  SURFACES,
  unitsOfProject,
  weightsModel,
} from '../../src/project';
import { type Edit } from '../../src/sheet';
import { readLog } from '../../src/project/log';
import { readWeighing } from '../../src/project/weighing';
import { valuesOf } from './sheets';

const KG = 0.45359237;
const parts = (header: string[], ...rows: Cell[][]): Cell[][] => [['Title'], header, ...rows];
/** What is put where: "B3 = 80". */
const written = (edits: readonly Edit[]): unknown[] =>
  edits.flatMap((edit) => (edit.kind === 'write' ? [edit.cells.flat()] : []));
const made = (edits: readonly Edit[]): Cell[][] =>
  edits.flatMap((edit) =>
    edit.kind === 'write' && edit.range.row === 0
      ? edit.cells.map((row) =>
          row.map((cell) => (typeof cell === 'object' && cell !== null && 'formula' in cell ? null : cell)),
        )
      : [],
  );

describe('a parts list', () => {
  it('is read in the unit of each label, whatever the others are in', () => {
    const cells = parts(
      ['Component', 'Part', 'Thickness (mm)', 'Flat area (cm²)', 'Each (g)', 'Arm (m)', 'Weight (kg)', 'Weighed (oz)'],
      ['Wing', 'Skin', 0.635, 6.4516, 453.59237, 2.54, 45.359237, 8],
    );
    const form = readForm(PARTS, cells)!;
    expect(form.rows[0]!.cells).toEqual({
      component: 'Wing',
      part: 'Skin',
      thickness: 0.025,
      area: 1,
      each: 1,
      arm: 100,
      weight: 100,
      weighed: 0.5,
    });
    expect(Object.fromEntries(Object.entries(form.units).map(([key, unit]) => [key, unit.sign]))).toEqual({
      thickness: 'mm',
      area: 'cm²',
      each: 'g',
      weighed: 'oz',
      arm: 'm',
      weight: 'kg',
    });
    expect([form.problems, form.named]).toEqual([[], 'both']);
  });

  it('has no pounds where it says kilograms: 10 kg are 22.05 lb', () => {
    const model = weightsModel(valuesOf({ Parts: parts(['Component', 'Part', 'Weight (kg)'], ['Wing', 'Skin', 10]) }))!;
    expect(model.total.current).toBeCloseTo(22.0462, 4);
    expect(model.units).toBe('mm-kg');
  });

  it.each([
    ['Weight (stone)', 'names the unit "stone"; takes lb, oz, kg or g in brackets. Its numbers are left out'],
    ['Weight (mm)', 'names the unit "mm"; takes lb, oz, kg or g in brackets. Its numbers are left out'],
  ])('with "%s" is not read in that column, and its header is named', (label, message) => {
    const { total, problems } = weightsModel(
      valuesOf({ Parts: parts(['Component', 'Part', label, 'Arm (in)'], ['Wing', 'Skin', 10, 80]) }),
    )!;
    expect(total.current).toBe(0);
    expect(problems).toEqual([{ sheet: 'Parts', cell: 'C2', message }]);
  });

  it('with "(kg)" above its arms has no balance, and says so once', () => {
    const summary = summarise(
      valuesOf({
        Parts: parts(
          ['Component', 'Part', 'Weight (lb)', 'Arm (kg)'],
          ['Wing', 'Skin', 10, 80],
          ['Wing', 'Rib', 10, 80],
        ),
      }),
    )!;
    expect(summary.total).toMatchObject({ weight: 20, arm: undefined });
    expect(summary.problems).toEqual([
      {
        sheet: 'Parts',
        cell: 'D2',
        message: 'names the unit "kg"; takes in, ft, mm, cm or m in brackets. Its numbers are left out',
      },
    ]);
  });

  it('is read in its own system where a label names no unit, and in inches and pounds where none does', () => {
    const of = (...labels: string[]) =>
      readForm(PARTS, parts(['Component', 'Part', ...labels], ['Wing', 'Skin', 25.4, 25.4]))!;
    expect(of('Weight (kg)', 'Arm').rows[0]!.cells.arm).toBe(1);
    expect(of('Weight', 'Arm').rows[0]!.cells.arm).toBe(25.4);
    expect(of('Weight (lb)', 'Arm').rows[0]!.cells.arm).toBe(25.4);
  });

  it('refuses a label without a unit where the others name both systems', () => {
    const form = readForm(
      PARTS,
      parts(['Component', 'Part', 'Weight (kg)', 'Thickness (in)', 'Arm'], ['Wing', 'Skin', 10, 0.025, 80]),
    )!;
    expect(form.rows[0]!.cells).toEqual({ component: 'Wing', part: 'Skin', weight: 22.046226218488, thickness: 0.025 });
    expect(form.problems).toEqual([
      {
        sheet: 'Parts',
        cell: 'E2',
        message:
          'has no unit, and the headers beside it use inch-pound and metric ones. Put in, ft, mm, cm or m in brackets behind its label; until then its numbers are left out',
      },
    ]);
  });

  it('says in messages what stands in the cell, in its unit', () => {
    const { problems } = readParts(
      valuesOf({
        Parts: parts(
          ['Component', 'Part', 'Weight (kg)', 'Weighed (g)', 'Cut length (mm)'],
          ['Wing', 'Skin', 1, -250, -12.7],
        ),
      }),
    )!;
    expect(problems.map(({ cell, message }) => `${cell} ${message}`)).toEqual([
      'D3 got -250; takes grams above 0',
      'E3 got -12.7; takes millimetres above 0',
    ]);
  });

  it('takes a density that is typed in the sheet’s system', () => {
    const weightOf = (system: string[], row: Cell[]) =>
      readParts(valuesOf({ Parts: parts(['Component', 'Part', 'Material', ...system], ['Wing', 'Skin', ...row]) }))!
        .rows[0]!.computed!;
    const inch = weightOf(['Thickness (in)', 'Flat area (in²)', 'Weight (lb)'], [0.098, 0.025, 1000, 1]);
    const metric = weightOf(
      ['Thickness (mm)', 'Flat area (mm²)', 'Weight (kg)'],
      [0.098 * 27.679904710203125, 0.635, 645160, 1],
    );
    expect(metric).toBeCloseTo(inch, 9);
  });
});

describe('the column Use', () => {
  const book = openPriceBook(
    readPriceList([
      ['Item', 'Kind', 'Sold by', 'Contents', 'Price'],
      ['Skin .025', 'sheet', 'sheet', '48 x 144', 100],
      ['Angle', 'bar', 'each', '12 ft', 20],
      ['Bolt', 'other', '100', '', 48],
      ['Paint', 'other', 'kg', '', 30],
    ]),
    piecesPerPound,
  );
  const rows: Cell[][] = [
    ['A', 'a', 'Skin .025', 6451.6, 1],
    ['A', 'b', 'Angle', 254, 1],
    ['A', 'c', 'Bolt', 8, 1],
    ['A', 'd', 'Paint', 2 * KG, 1],
  ];
  const needs = (use: string, weight: string) => {
    const list = readParts(valuesOf({ Parts: parts(['Component', 'Part', 'Price item', use, weight], ...rows) }))!;
    return {
      problems: list.problems,
      quantities: gatherNeeds(list.rows, [], book).map(({ quantity }) => Number(quantity.toFixed(9))),
    };
  };

  it('is in the sheet’s system by what the item is used by, and pieces are pieces', () => {
    expect(needs('Use', 'Weight (kg)')).toEqual({ problems: [], quantities: [10, 10, 8, 2] });
    expect(needs('Use', 'Weight (lb)').quantities).toEqual([6451.6, 254, 8, Number((2 * KG).toFixed(9))]);
  });

  it('is in the units that its label names', () => {
    expect(needs('Use (mm², mm, kg or pieces)', 'Weight (lb)').quantities).toEqual([10, 10, 8, 2]);
    expect(needs('Use (cm²)', 'Weight (kg)').quantities).toEqual([1000, 10, 8, 2]);
    expect(needs('Use (pieces)', 'Weight (kg)').quantities).toEqual([10, 10, 8, 2]);
  });

  it('is left out where its units cannot be told', () => {
    expect(needs('Use (acres)', 'Weight (kg)')).toEqual({
      problems: [
        {
          sheet: 'Parts',
          cell: 'D2',
          message: 'names the unit "acres"; takes (in², in, lb) or (mm², mm, kg). Its numbers are left out',
        },
      ],
      quantities: [],
    });
    expect(needs('Use (in², kg)', 'Weight (kg)').quantities).toEqual([]);
  });
});

describe('the workbook’s units', () => {
  const list = (weight: string): Cell[][] => parts(['Component', 'Part', weight], ['Wing', 'Skin', 10]);
  const joints = (weight: string): Cell[][] => [['Joint', 'Component', 'Rivets', weight]];
  const loading: Cell[][] = [['Station', 'Arm (mm)', 'Max (kg)']];

  it('are those of the parts list’s weights, else of the first sheet that names some', () => {
    const of = (sheets: Record<string, Cell[][]>) => unitsOfProject(valuesOf(sheets), Object.keys(sheets));
    expect(of({})).toBe('in-lb');
    expect(of({ Parts: list('Weight') })).toBe('in-lb');
    expect(of({ Parts: list('Weight (lb)'), Joints: joints('Weight (kg)') })).toBe('in-lb');
    expect(of({ Parts: list('Weight'), Joints: joints('Weight (kg)') })).toBe('mm-kg');
    expect(of({ 'Loading tailwheel': loading })).toBe('mm-kg');
    expect(of({ Parts: parts(['Component', 'Part', 'Weight (kg)', 'Thickness (in)']) })).toBe('mm-kg');
    expect(of({ Buying: [['Kerf (mm)', 3]] })).toBe('mm-kg');
  });

  it('of the parts list are those of a sheet that names none', () => {
    const budget = (label: string): Cell[][] => [
      ['Component', label],
      ['Wing', 100],
    ];
    const goal = (weight: string, label: string): number =>
      weightsModel(valuesOf({ Parts: list(weight), Budget: budget(label) }))!.total.budget!;
    expect(goal('Weight (kg)', 'Budget')).toBeCloseTo(100 / KG, 9);
    expect(goal('Weight (kg)', 'Budget (lb)')).toBe(100);
    expect(goal('Weight', 'Budget')).toBe(100);
    expect(BUDGET.columns[1]!.dimension).toBe('weight');
  });
});

describe('facts', () => {
  it('are in the unit of their label', () => {
    expect(findFact([['MAC (mm)', 1270]], 'MAC (in)')).toMatchObject({
      value: 50,
      unit: { sign: 'mm' },
      row: 0,
      column: 1,
    });
    expect(findFact([['MAC', 1270]], 'MAC (in)', 1, 'mm-kg')).toMatchObject({ value: 50 });
    expect(findFact([['MAC (kg)', 1270]], 'MAC (in)')).toMatchObject({
      value: null,
      wrong: 'names the unit "kg"; takes in, ft, mm, cm or m in brackets. Its numbers are left out',
    });
    expect(findFact([['MAC (kg)', null]], 'MAC (in)')).not.toHaveProperty('wrong');
  });

  it('of cutting and buying too', () => {
    const { cutting, facts, problems } = readBuying(
      valuesOf({
        Buying: [
          ['Kerf (mm)', 2.54],
          ['Leftovers kept from', 50.8],
          ['Cut from scrap up to (mm)', 12700],
        ],
      }),
      'USD',
    )!;
    expect(cutting).toMatchObject({ kerf: 0.1, keepFrom: 2, scrapBelow: 0 });
    expect(facts.kerf?.unit?.sign).toBe('mm');
    expect(problems).toEqual([
      {
        sheet: 'Buying',
        cell: 'B3',
        message: 'Cut from scrap up to (mm): got 12700; takes millimetres from 0 to 609.6. 0 is used',
      },
    ]);
  });
});

describe('an airplane', () => {
  const weighing = (arm = 'Arm (mm)', mac = 'MAC (mm)'): Cell[][] => [
    ['Leading edge of MAC', 1524],
    [mac, 1371.6],
    ['Point', 'Scale reading (kg)', 'Tare (kg)', arm],
    ['Left', 100, 200, 1000],
    ['Right', 100, 1, 1000],
    ['Tail', 20, null, 5000],
    ['Correction', 'Weight', 'Arm'],
    ['Fuel', -10, 1000],
  ];

  it('is weighed in the units of its sheet; messages too', () => {
    const { record, problems, result } = readWeighing(valuesOf({ Weighing: weighing() }), 'Weighing')!;
    expect(record.chord).toEqual({ lemac: 60, mac: 54 });
    expect(record.points.map(({ name, reading }) => [name, Number((reading * KG).toFixed(9))])).toEqual([
      ['Right', 100],
      ['Tail', 20],
    ]);
    expect(problems.map(({ message }) => message)).toEqual(['got 200; takes no more than the reading, 100']);
    // 99 kg and 20 kg, less 10 kg of fuel
    expect(result!.weight * KG).toBeCloseTo(109, 9);
  });

  it('has no empty weight where a unit of its weighing cannot be told', () => {
    expect(readWeighing(valuesOf({ Weighing: weighing('Arm (lb)') }), 'Weighing')!).toMatchObject({
      result: undefined,
      problems: [{ cell: 'D3' }],
    });
    const { record, problems } = readWeighing(valuesOf({ Weighing: weighing('Arm (mm)', 'MAC (kg)') }), 'Weighing')!;
    expect(record.chord).toBeUndefined();
    expect(problems[0]).toMatchObject({
      cell: 'A2',
      message: expect.stringContaining('names the unit "kg"') as string,
    });
  });

  const sheets = (pilot: string): Record<string, Cell[][]> => ({
    Loading: [
      ['', 'Weight (kg)', 'Arm (mm)'],
      ['Empty', 300, 1500],
      ['Station', 'Arm (mm)', 'Load (kg)', 'Max (kg)'],
      ['Pilot', 1800, 80, 110],
      ['Seat (left)', 1800, 10, 110],
    ],
    Envelope: [
      ['Arm (mm)', 'Weight (kg)'],
      [1000, 200],
      [1000, 600],
      [2000, 600],
      [2000, 200],
    ],
    Cases: [
      ['Case', pilot, 'Seat (left)', 'Take-off weight (kg)'],
      ['One', 90, 20, null],
    ],
  });
  const modelOf = (all: Record<string, Cell[][]>) => balanceModels(valuesOf(all), Object.keys(all))[0]!;

  it('is loaded in the units of its sheets, and what is saved goes back in them', () => {
    const model = modelOf(sheets('Pilot (lb)'));
    expect(model.problems).toEqual([]);
    expect(model.empty!.weight * KG).toBeCloseTo(300, 9);
    expect(
      model.stations.map(({ load, max }) => [load * KG, max * KG].map((value) => Number(value.toFixed(9)))),
    ).toEqual([
      [80, 110],
      [10, 110],
    ]);
    expect(model.casesSheet!.cases[0]!.loads.map((load) => Number(load.toFixed(6)))).toEqual([90, 44.092452]);
    expect(model.casesSheet!.stationUnits.map((unit) => unit?.sign)).toEqual(['lb', 'kg']);
    expect(written(caseEdits(model.casesSheet!, 'Two', [100, 55 / KG]))).toEqual([['Two'], [100], [55]]);
    expect(written(loadEdits(model.loading!, [75 / KG, 0]))).toEqual([[75], [0]]);
    expect(model.judged!.now!.words.verdict).toBe('inside from take-off to landing');
    expect(model.judged!.now!.words.takeoff).toMatch(
      /^inside, [\d.,]+ mm aft of the forward limit and [\d.,]+ mm forward of the aft limit$/,
    );
    expect([model.units, model.sheetUnits]).toEqual(['mm-kg', 'mm-kg']);
  });

  it('leaves out a case’s column whose unit it does not know', () => {
    const model = modelOf(sheets('Pilot (gal)'));
    expect(model.problems).toEqual([
      {
        sheet: 'Cases',
        cell: 'B1',
        message: 'names the unit "gal"; takes lb, oz, kg or g in brackets. Its numbers are left out',
      },
    ]);
    expect(written(caseEdits(model.casesSheet!, 'Two', [100, 10 / KG]))).toEqual([['Two'], [10]]);
  });

  it('has no envelope where its corners cannot be read', () => {
    const all = {
      ...sheets('Pilot'),
      Envelope: [
        ['Arm (kg)', 'Weight (kg)'],
        [1000, 200],
        [1000, 600],
        [2000, 600],
      ],
    };
    expect(modelOf(all)).toMatchObject({
      envelope: undefined,
      judged: undefined,
      problems: [{ sheet: 'Envelope', cell: 'A1' }],
    });
    expect(LOADING.columns.filter(({ dimension }) => dimension === 'weight').map(({ key }) => key)).toEqual([
      'load',
      'min',
      'max',
    ]);
  });
});

describe('other sheets', () => {
  it('joints and the makers’ shear', () => {
    const { joints, problems } = readRivetJoints(
      valuesOf({
        Joints: [
          ['Joint', 'Component', 'Sheet 1 (mm)', 'Sheet 2 (mm)', 'Diameter (mm)', 'Pitch (mm)', 'Rivets'],
          ['a', 'Wing', 0.635, 0.635, 3.175, 25.4, 10],
          ['b', 'Wing', 0.635, 0.635, 300, 25.4, 10],
          ['c', 'Wing', null, null, 3.175, 25.4, 10],
        ],
      }),
    )!;
    expect(joints).toEqual([expect.objectContaining({ grip: 0.05, diameter: 0.125, pitch: 1 })]);
    expect(problems.map(({ message }) => message)).toEqual([
      'got 300; takes millimetres above 0: 3.175',
      'is blank, and so are the sheets; takes the grip in millimetres',
    ]);
    const { terms } = readRivetOptions(
      valuesOf({
        'Rivet options': [
          ['Option', 'Rivets', null, 'Blind rivet', 'Shear (N)'],
          ['One', 'blind', null, 'AA 1/8', 444.82216152605],
        ],
      }),
    )!;
    expect(Object.values(terms.makersShear)).toEqual([100]);
    expect(JOINTS.columns.find(({ key }) => key === 'grip')!.dimension).toBe('length');
  });

  it('control surfaces', () => {
    const { surfaces } = readSurfaces(
      valuesOf({
        'Control surfaces': [
          ['Surface', 'Hinge line (mm)', 'Raising (kg)', 'Lowering (kg)', 'Scale arm (mm)'],
          ['Elevator', 2540, 1, 0.8, 254],
        ],
      }),
      undefined,
    )!;
    expect(surfaces[0]!.hinge).toBe(100);
    expect(surfaces[0]!.measured!.moment).toBeCloseTo((0.9 / KG) * 10, 9);
    const list = readForm(
      PARTS,
      parts(['Component', 'Part', 'Weight (kg)', 'Arm (mm)', 'Moment (kg·mm)'], ['Elevator', 'Skin', 1, 1, 1]),
    )!;
    const cells = made(newSurfacesSheet(list, [{ name: 'Elevator', hinge: 100 }]));
    expect(cells[4]).toContain('Hinge line (mm)');
    expect(cells[5]!.slice(0, 3)).toEqual(['Elevator', null, 2540]);
    expect(readForm(SURFACES, cells)!.rows[0]!.cells.hinge).toBe(100);
  });

  it('a sheet of surfaces in other units than the parts list sums nothing from it', () => {
    const formulas = (units: 'in-lb' | 'mm-kg') =>
      JSON.stringify(
        newSurfacesSheet(
          readForm(PARTS, parts(['Component', 'Part', 'Weight (kg)', 'Arm (mm)', 'Moment (kg·mm)'])),
          [],
          true,
          units,
        ),
      );
    expect(formulas('mm-kg')).toContain('SUMIFS');
    expect(formulas('in-lb')).not.toContain('SUMIFS');
  });

  it('stock and buying are made in the units asked for, and read alike', () => {
    const stock = made(newStockSheet(true, 'mm-kg'));
    const { columns, header } = readForm(STOCK, stock)!;
    stock[header + 1] = [];
    stock[header + 1]![columns.name!] = 'Sheet';
    stock[header + 1]![columns.length!] = 2540;
    expect(readStockSheet(valuesOf({ Stock: stock }))!.pieces[0]!.length).toBe(100);
    expect(readBuying(valuesOf({ Buying: made(newBuyingSheet('EUR', true, 'mm-kg')) }), 'USD')!.cutting).toEqual(
      readBuying(valuesOf({ Buying: made(newBuyingSheet('EUR')) }), 'USD')!.cutting,
    );
  });

  it('the log is written in the units of its columns', () => {
    const log = readLog(valuesOf({ Log: [['Date', 'Component', 'Weight (kg)', 'Forecast (lb)', 'Budget (stone)']] }))!;
    const [, , weight, forecast, ...more] = written(
      logEdits(log, '2026-03-31', [{ component: 'Total', weight: 100, forecast: 110, budget: 120 }]),
    );
    expect([weight, forecast, more]).toEqual([[45.359237], [110], []]);
    expect(made(newLogSheet(true, 'mm-kg')).flat()).toEqual(
      expect.arrayContaining(['Weight (kg)', 'Forecast (kg)', 'Budget (kg)']),
    );
    expect(written(logEdits(undefined, '2026-03-31', [{ component: 'Total', weight: 100 }], 'mm-kg'))[2]).toEqual([
      45.359237,
    ]);
    expect(LOG.columns.flatMap(({ key, dimension }) => (dimension ? [key] : []))).toEqual([
      'weight',
      'forecast',
      'budget',
    ]);
  });
});
