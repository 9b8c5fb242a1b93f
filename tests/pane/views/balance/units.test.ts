/** The balance in kilograms and millimetres: what is written into the sheets, and what is made there. */
import { afterEach, describe, expect, it } from 'vitest';
import { readProject } from '../../../helpers/project';
import { balanceSheets, BalanceStore } from '../../../../src/pane/views/balance/balance-store';
import { ballastFor } from '../../../../src/pane/views/balance/ballast-panel';
import { columnUnit, factUnit, ownLabel, readTypedCell } from '../../../../src/pane/shared/field';
import { exampleSheets, missingSheet } from '../../../../src/pane/views/balance/new-sheets';
import { rebuiltCases } from '../../../../src/pane/views/balance/edits';
import { recordBody } from '../../../../src/pane/views/balance/weighing-record';
import {
  agreementWords,
  counterweightWords,
  headline,
  partsWords,
} from '../../../../src/pane/views/balance/balance-words';
import { quantities } from '../../../../src/core/quantity';
import { setLocale, writeNumber } from '../../../../src/pane/locale';
import { type Edit, type WorkbookModel } from '../../../../src/sheet';
import {
  balanceModels,
  LOADING,
  projectSheetsOf,
  readParts,
  readSurfaces,
  USUAL_STATIONS,
  WEIGHING_FACTS,
} from '../../../../src/project';
import { metricAirplanes } from './metric-airplanes';
import { book, nothing, partsSheet, surfacesSheet } from './models';
import { openPane, started } from '../../open-pane';

const KG = 0.45359237;
afterEach(() => setLocale());

async function open(model: WorkbookModel) {
  const { workbook, pane, settle } = await openPane(model);
  const store = await started(new BalanceStore(pane));
  return { workbook, store, settle };
}

const metric = () => {
  const { values, names } = projectSheetsOf(metricAirplanes());
  return balanceModels(values, names, writeNumber)[0]!;
};

describe('what is typed into a metric airplane', () => {
  it('is read in its column’s unit, and another unit behind it is converted', () => {
    const load = columnUnit(LOADING, metric().loading!.form, 'load')!;
    expect(load.unit.sign).toBe('kg');
    expect(readTypedCell('number', '77', load)).toEqual({ cell: 77 });
    expect(readTypedCell('number', '170 lb', load)).toEqual({ cell: expect.closeTo(170 * KG, 9) });
    expect(readTypedCell('number', '2 m', load)).toEqual({ wrong: '“2 m”: m is not a unit here. Type lb, oz, kg, g' });
    setLocale({ language: 'de', numbers: 'de-DE' });
    expect(readTypedCell('number', '77,5', load)).toEqual({ cell: 77.5 });
  });

  it('is asked for by labels with the sheet’s own unit, and by none where it cannot be told', () => {
    const { weighing } = metric();
    expect(ownLabel(WEIGHING_FACTS.lemac, factUnit(WEIGHING_FACTS.lemac, weighing!.facts.lemac!))).toBe(
      'Leading edge of MAC (mm)',
    );
    expect(ownLabel('Hinge line (in)', undefined)).toBe('Hinge line');
    expect(ownLabel('Share (%)', undefined)).toBe('Share (%)');
  });
});

describe('the weighing record of a metric airplane', () => {
  it('is in kilograms and millimetres throughout', () => {
    const { weighing } = metric();
    const text = recordBody(weighing!, 'mm-kg', '2026-09-20')!
      .replace(/<[^>]+>/g, ' ')
      .replace(/\s+/g, ' ');
    expect(text).toContain('Reading (kg) Tare (kg) Net (kg) Arm (mm) Moment (kg·mm)');
    expect(text).toContain('Left main wheel 169.87 1.81 168.06 1,479.6 248,647');
    expect(text).toContain('Weight 353.26 kg');
    expect(text).not.toMatch(/\b(?:lb|in)\b(?= |\)|$)(?! the)/);
  });

  it('has decimal commas where the place has them', () => {
    setLocale({ language: 'de', numbers: 'de-DE' });
    const body = recordBody(metric().weighing!, 'mm-kg', '2026-09-20')!;
    expect(body).toContain('353,26 kg');
    expect(body).not.toMatch(/\d\.\d\d\b(?!\d)/);
  });
});

describe('ballast in a metric airplane', () => {
  const { airplane, now } = metric().judged!;
  it('is in tenths of a kilogram: none lighter does', () => {
    const typed: Readonly<Record<string, number>> = { Pilot: 110, Baggage: 180 };
    const loads = airplane.stations.map(({ name }, index) => typed[name] ?? now!.loads[index]!);
    const found = ballastFor(airplane, loads, 10, 'mm-kg')!;
    const tenths = found.weight * KG * 10;
    expect(tenths).toBeCloseTo(Math.round(tenths), 6);
    expect(tenths).toBeGreaterThan(1);
    const pounds = ballastFor(airplane, loads, 10)!;
    expect(Math.abs(found.weight - pounds.weight)).toBeLessThan(0.1 / KG);
  });
});

describe('control surfaces in a metric workbook', () => {
  const values = projectSheetsOf(
    book(
      {
        ...partsSheet([
          ['Aileron', 'Skin', 0.9, 2390, 2151],
          ['Aileron', 'Arm', 0.4, 2200, 880],
        ]),
        cells: [
          ['Component', 'Part', 'Weight (kg)', 'Arm (mm)', 'Moment (kg·mm)'],
          ['Aileron', 'Skin', 0.9, 2390, 2151],
          ['Aileron', 'Arm', 0.4, 2200, 880],
        ].map((row) => row.map((value) => ({ value }))),
      },
      {
        ...surfacesSheet([]),
        cells: [
          [
            'Surface',
            'Component',
            'Hinge line (mm)',
            'Raising (kg)',
            'Lowering (kg)',
            'Scale arm (mm)',
            'Counterweight arm (mm)',
          ],
          ['Aileron', 'Aileron', 2290, 0.3, 0.2, 250, 100],
        ].map((row) => row.map((value) => ({ value }))),
      },
    ),
  ).values;
  const { units, surfaces } = readSurfaces(values, readParts(values))!;
  const say = () => quantities(units, writeNumber);

  it('are in kg·mm and kg', () => {
    const surface = surfaces[0]!;
    expect(headline(surface, say())).toBe('63 kg·mm, trailing-edge heavy');
    expect(partsWords(surface, say())).toBe('2 rows, 1.30 kg: 54 kg·mm, trailing-edge heavy.');
    expect(agreementWords(surface, say())).toContain('The two agree: they differ by 9 kg·mm (16 %)');
    expect(counterweightWords(surface, say())).toContain(
      '0.625 kg at 100.0 mm ahead of the hinge line, from the measured moment.',
    );
  });
});

describe('sheets that are made', () => {
  it.each(['tailwheel', 'nosewheel'] as const)(
    'for a metric %s airplane are in kilograms and millimetres, their figures round, and judged inside',
    async (gear) => {
      const { store, workbook } = await open(nothing);
      const { edits } = await exampleSheets(workbook, '', gear, 'mm-kg');
      expect(await store.change('Add an airplane', edits)).toBeUndefined();
      const model = store.model!;
      expect([store.state.units, model.units, model.sheetUnits, model.problems]).toEqual([
        'mm-kg',
        'mm-kg',
        'mm-kg',
        [],
      ]);
      expect(model.weighing!.record.gear).toBe(gear);
      expect(model.judged!.now!.result.inside).toBe(true);
      expect(model.judged!.cases[0]!.loads).toEqual(model.judged!.now!.loads);
      expect(model.judged!.airplane.envelope.weights.to * KG).toBeCloseTo(gear === 'tailwheel' ? 600 : 725, 6);
      const { form } = model.loading!;
      for (const { row } of form.rows) expect((Number(store.cell('Loading', row, form.columns.max!)) * 2) % 1).toBe(0);
    },
  );

  it('in an airplane’s own units, and none where those are mixed', async () => {
    const { store, workbook } = await open({
      ...metricAirplanes(),
      sheets: metricAirplanes().sheets.filter(({ name }) => name !== 'Envelope tailwheel'),
    });
    const { edits } = await missingSheet(workbook, 'envelope', {
      name: 'tailwheel',
      gear: 'tailwheel',
      stations: USUAL_STATIONS,
      units: store.model!.sheetUnits as 'mm-kg',
    });
    expect(JSON.stringify(edits)).toContain('Weight (kg)');
    expect(JSON.stringify(edits)).not.toContain('(lb)');
  });

  it('anew for the cases keep their loads in kilograms', async () => {
    const { store, settle } = await open(metricAirplanes());
    const { form } = store.model!.loading!;
    const row = store.model!.stations.at(-1)!.row + 1;
    const station = [
      ['station', 'Wing locker'],
      ['arm', 2286],
      ['min', 0],
      ['max', 20],
    ] as const;
    await store.change(
      'Add station',
      station.map(([key, cell]) => ({
        kind: 'write',
        range: { sheet: form.sheet, row, column: form.columns[key]!, rows: 1, columns: 1 },
        cells: [[cell]],
      })),
    );
    const before = store.model!.judged!.cases;
    const edits = rebuiltCases(store.model!, store.model!.casesSheet!, store.state.sheets);
    expect(typeof edits).not.toBe('string');
    await store.change('Add the columns', edits as readonly Edit[]);
    await settle();
    const { casesSheet, judged, problems } = store.model!;
    expect(problems).toEqual([]);
    expect(casesSheet!.stationUnits.map((unit) => unit?.sign)).toEqual(
      Array.from({ length: store.model!.stations.length }, () => 'kg'),
    );
    expect(judged!.cases.map(({ name, result }) => [name, result.takeoff.weight])).toEqual(
      before.map(({ name, result }) => [name, expect.closeTo(result.takeoff.weight, 6)]),
    );
  });
});

describe('the units of the workbook', () => {
  it('go by the labels of the joints too, of which no more is read', async () => {
    const { workbook } = await open(
      book({
        name: 'Joints',
        cells: [
          [{ value: 'Joint' }, { value: 'Component' }, { value: 'Rivets' }, { value: 'Weight (kg)' }],
          ...Array.from({ length: 60 }, (_, index) => [
            { value: `joint ${index}` },
            { value: 'Wing' },
            { value: 4 },
            { value: 0.1 },
          ]),
        ],
        tables: [],
      }),
    );
    const sheets = await readProject(workbook, balanceSheets);
    expect(sheets.values('Joints')).toHaveLength(30);
    const { store } = await open(
      book({
        name: 'Joints',
        cells: [[{ value: 'Joint' }, { value: 'Component' }, { value: 'Rivets' }, { value: 'Weight (kg)' }]],
        tables: [],
      }),
    );
    expect(store.state.units).toBe('mm-kg');
  });
});
