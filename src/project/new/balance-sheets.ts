/**
 * The edits that add an airplane's sheets (weighing, loading, envelope and cases), save a loading case, and put one onto
 * the loading sheet. Sums are plain arithmetic, so that the sheets read without the add-in; TARE functions weigh, judge
 * and give per cent of the chord.
 */
import type { Gear, Load } from '../../core/balance';
import { inUnit, labelIn, unitWords, type UnitSystem } from '../../core/quantity';
import { cellName, columnName, quoteSheet, type Edit } from '../../sheet';
import {
  CASES,
  CORRECTIONS,
  ENVELOPE,
  ENVELOPE_SOURCE,
  GEARS,
  LOADING,
  LOADING_EMPTY,
  WEIGHING,
  WEIGHING_FACTS,
} from '../balance-forms';
import { unitsArgument } from './formula-terms';
import { CAUTION, cellsIn, labelsOf, SheetPlan } from './plan';
import { sameName } from '../../core/names';
import type { CasesSheet, Loading } from '../loading';

/** What the sheets are made with, in inches and pounds whatever the sheets will be in. Names of stations and points may be changed on the sheets afterwards, where the cases' headings are the stations' names. */
export interface NewAirplane {
  /** Words behind the sheets' names; '' for the only airplane. */
  readonly name: string;
  readonly gear: Gear;
  readonly stations: readonly NewStation[];
  /** Left out: the sheets are made to be filled in. */
  readonly envelope?: readonly Load[];
  /** What the sheets are in; they must agree with those of the airplane that are there. Inches and pounds where it is left out. */
  readonly units?: UnitSystem;
}

export interface NewStation {
  readonly name: string;
  readonly arm?: number;
  readonly min?: number;
  readonly max?: number;
  readonly fuel?: boolean;
}

/** Stations of a common two-seater, to be renamed. */
export const USUAL_STATIONS: readonly NewStation[] = [
  { name: 'Pilot' },
  { name: 'Passenger' },
  { name: 'Baggage' },
  { name: 'Fuel', fuel: true },
];

const sheetName = (form: { readonly sheet: string }, name: string): string =>
  name === '' ? form.sheet : `${form.sheet} ${name}`;

/** The rows, counted from 1 as formulas count them, on which the sheets hold what others refer to. */
const WEIGHED = {
  result: 15,
  points: { header: 18, first: 19, last: 24 },
  corrections: { header: 27, first: 28, last: 35 },
} as const;
const LOADED = { empty: 6, takeoff: 7, landing: 8, header: 11, first: 12, last: 27 } as const;
const CORNERS = { header: 7, first: 8, last: 27 } as const;
const SAVED = { header: 5, first: 6, last: 25 } as const;

const resultLabels = (units: UnitSystem): string[] =>
  ['Weight (lb)', 'Arm (in)', 'Moment (lb·in)'].map((label) => labelIn(label, units));

/** Weighing, Loading, Envelope and Cases as one step. */
export const newAirplaneSheets = (airplane: NewAirplane): Edit[] => [
  ...newWeighingSheet(airplane),
  ...newLoadingSheet(airplane),
  ...newEnvelopeSheet(airplane),
  ...newCasesSheet(airplane),
];

export function newWeighingSheet(
  { name, gear, units = 'in-lb' }: Pick<NewAirplane, 'name' | 'gear' | 'units'>,
  add = true,
): Edit[] {
  const { result, points, corrections } = WEIGHED;
  const third = gear === 'tailwheel' ? 'Tailwheel' : 'Nosewheel';
  const column = (letter: string, { first, last }: { first: number; last: number }): string =>
    `${letter}${first}:${letter}${last}`;
  return (
    new SheetPlan(sheetName(WEIGHING, name))
      .heading('Weighing record', [
        'Weigh with the airplane level, in a closed room, and say how level was found. Shaded cells are typed.',
        CAUTION,
      ])
      .row(4, [WEIGHING_FACTS.airplane])
      .row(5, [WEIGHING_FACTS.date])
      .row(6, [WEIGHING_FACTS.gear, gear])
      .row(7, [WEIGHING_FACTS.level])
      .row(8, [WEIGHING_FACTS.scales])
      .row(9, [labelIn(WEIGHING_FACTS.lemac, units)])
      .row(10, [labelIn(WEIGHING_FACTS.mac, units)])
      .header(result - 3, ['Result', ...resultLabels(units), 'MAC (%)'])
      .row(result - 2, ['As weighed'])
      .row(result - 1, ['Empty, corrected'])
      // The three-cell spill needs a reading: until there is one the row stays blank.
      .formula(
        result - 2,
        1,
        `IF(SUM(${column('B', points)})=0,"",TARE.BALANCE.WEIGHING(${column('B', points)},${column('C', points)},${column('E', points)}${unitsArgument(units)}))`,
      )
      .formula(result - 1, 1, `IF(LEN(B${result - 1})=0,"",B${result - 1}+SUM(${column('B', corrections)}))`)
      .formula(result - 1, 2, `IF(LEN(B${result})=0,"",D${result}/B${result})`)
      .formula(result - 1, 3, `IF(LEN(B${result})=0,"",D${result - 1}+SUM(${column('D', corrections)}))`)
      .formula(result - 1, 4, `IF(OR(LEN(B${result})=0,LEN(B11)=0),"",TARE.BALANCE.MAC(C${result},B10,B11))`)
      .header(points.header - 1, labelsOf(WEIGHING, units))
      .row(points.first - 1, ['Left main wheel'])
      .row(points.first, ['Right main wheel'])
      .row(points.first + 1, [third])
      .formula(
        points.first - 1,
        3,
        `IF(LEN(${column('B', points)})=0,"",${column('B', points)}-${column('C', points)})`,
      )
      .formula(
        points.first - 1,
        5,
        `IF(LEN(${column('D', points)})=0,"",${column('D', points)}*${column('E', points)})`,
      )
      .row(corrections.header - 2, [
        'What was aboard and does not belong to the empty weight (negative), or was absent and does (positive)',
      ])
      .header(corrections.header - 1, labelsOf(CORRECTIONS, units))
      .formula(
        corrections.first - 1,
        3,
        `IF(LEN(${column('B', corrections)})=0,"",${column('B', corrections)}*${column('C', corrections)})`,
      )
      .look('B5:B5', 'text')
      .look('B6:B6', 'date')
      .look('B7:B9', 'text')
      .look('B10:B11', 'inches')
      .choices('B7:B7', GEARS)
      .look(`B${result - 1}:B${result}`, 'poundsComputed')
      .look(`C${result - 1}:C${result}`, 'inchesComputed')
      .look(`D${result - 1}:D${result}`, 'momentComputed')
      .look(`E${result}:E${result}`, 'percentComputed')
      .look(column('A', points), 'text')
      .look(`B${points.first}:C${points.last}`, 'pounds')
      .look(column('D', points), 'poundsComputed')
      .look(column('E', points), 'inches')
      .look(column('F', points), 'momentComputed')
      .look(column('A', corrections), 'text')
      .look(column('B', corrections), 'pounds')
      .look(column('C', corrections), 'inches')
      .look(column('D', corrections), 'momentComputed')
      .widths([26, 18, 12, 15, 11, 15])
      .edits(add)
  );
}

const STATION_COLUMNS = { arm: 1, load: 2, min: 3, max: 4, fuel: 5, moment: 6 } as const;

/** @param weighed false where there is no weighing sheet: empty weight and arm are typed */
export function newLoadingSheet(
  { name, stations, units = 'in-lb' }: Pick<NewAirplane, 'name' | 'stations' | 'units'>,
  add = true,
  weighed = true,
): Edit[] {
  const { empty, takeoff, landing, header, first, last } = LOADED;
  const weighing = quoteSheet(sheetName(WEIGHING, name));
  const envelope = envelopeRange(name);
  const column = (letter: string): string => `${letter}${first}:${letter}${last}`;
  const judged = (row: number): string =>
    `IF(OR(LEN(B${row})=0,COUNT(${envelope})<6),"",TARE.BALANCE.JUDGE(B${row},C${row},${envelope}${unitsArgument(units)}))`;
  const cell = cellsIn(units);
  const plan = new SheetPlan(sheetName(LOADING, name))
    .heading('Loading', [
      'Type a load at each station. A tank’s least is its reserve: at landing every tank is down to it.',
      CAUTION,
    ])
    .header(empty - 2, ['', ...resultLabels(units), 'Against the envelope'])
    .row(empty - 1, [LOADING_EMPTY])
    .row(takeoff - 1, ['Take-off'])
    .row(landing - 1, ['Landing'])
    .formula(empty - 1, 3, `IF(LEN(B${empty})=0,"",B${empty}*C${empty})`)
    .formula(takeoff - 1, 1, `IF(LEN(B${empty})=0,"",B${empty}+SUM(${column('C')}))`)
    .formula(takeoff - 1, 2, `IF(LEN(B${takeoff})=0,"",D${takeoff}/B${takeoff})`)
    .formula(takeoff - 1, 3, `IF(LEN(B${empty})=0,"",D${empty}+SUM(${column('G')}))`)
    .formula(takeoff - 1, 4, judged(takeoff))
    .formula(
      landing - 1,
      1,
      `IF(LEN(B${empty})=0,"",B${takeoff}-SUMPRODUCT((${column('F')}="yes")*(${column('C')}>${column('D')})*(${column('C')}-${column('D')})))`,
    )
    .formula(landing - 1, 2, `IF(LEN(B${landing})=0,"",D${landing}/B${landing})`)
    .formula(
      landing - 1,
      3,
      `IF(LEN(B${empty})=0,"",D${takeoff}-SUMPRODUCT((${column('F')}="yes")*(${column('C')}>${column('D')})*(${column('C')}-${column('D')})*${column('B')}))`,
    )
    .formula(landing - 1, 4, judged(landing))
    .header(header - 1, labelsOf(LOADING, units))
    .formula(first - 1, STATION_COLUMNS.moment, `IF(LEN(${column('C')})=0,"",${column('C')}*${column('B')})`);
  if (weighed)
    plan
      .formula(empty - 1, 1, `${weighing}!B${WEIGHED.result}`)
      .formula(empty - 1, 2, `${weighing}!C${WEIGHED.result}`);
  return plan
    .rows(
      first - 1,
      stations.map(({ name: station, arm, min, max, fuel }) => [
        station,
        cell(arm, 'length'),
        undefined,
        cell(min, 'weight'),
        cell(max, 'weight'),
        fuel ? 'yes' : undefined,
      ]),
    )
    .look(`B${empty}:B${landing}`, 'poundsComputed')
    .look(`C${empty}:C${landing}`, 'inchesComputed')
    .look(`B${empty}:B${empty}`, weighed ? 'poundsComputed' : 'pounds')
    .look(`C${empty}:C${empty}`, weighed ? 'inchesComputed' : 'inches')
    .look(`D${empty}:D${landing}`, 'momentComputed')
    .look(column('A'), 'text')
    .look(column('B'), 'inches')
    .look(`C${first}:E${last}`, 'pounds')
    .look(column('F'), 'text')
    .look(column('G'), 'momentComputed')
    .look(column('H'), 'text')
    .choices(column('F'), ['yes'])
    .widths([22, 13, 11, 15, 12, 8, 15, 30])
    .edits(add);
}

/** Corners of the envelope as a formula's argument; blank rows below the last corner are passed over. */
const envelopeRange = (name: string): string =>
  `${quoteSheet(sheetName(ENVELOPE, name))}!$A$${CORNERS.first}:$B$${CORNERS.last}`;

export function newEnvelopeSheet(
  { name, envelope = [], units = 'in-lb' }: Pick<NewAirplane, 'name' | 'envelope' | 'units'>,
  add = true,
): Edit[] {
  const { header, first, last } = CORNERS;
  const cell = cellsIn(units);
  return new SheetPlan(sheetName(ENVELOPE, name))
    .heading('Loading envelope', [
      'Corners in order around it, either way; its edges and corners count as inside. Copy them from the aircraft’s own documents.',
      CAUTION,
    ])
    .row(4, [ENVELOPE_SOURCE])
    .header(header - 1, labelsOf(ENVELOPE, units))
    .look('B5:B5', 'text')
    .look(`A${first}:A${last}`, 'inches')
    .look(`B${first}:B${last}`, 'pounds')
    .look(`C${first}:C${last}`, 'text')
    .rows(
      first - 1,
      envelope.map(({ arm, weight }) => [cell(arm, 'length'), cell(weight, 'weight')]),
    )
    .widths([14, 14, 40])
    .edits(add);
}

export function newCasesSheet(
  { name, stations, units = 'in-lb' }: Pick<NewAirplane, 'name' | 'stations' | 'units'>,
  add = true,
): Edit[] {
  const { header, first, last } = SAVED;
  const loading = quoteSheet(sheetName(LOADING, name));
  const envelope = envelopeRange(name);
  const rows = (column: number): string => `${columnName(column)}${first}:${columnName(column)}${last}`;
  const station = (index: number, key: keyof typeof STATION_COLUMNS): string =>
    `${loading}!$${columnName(STATION_COLUMNS[key])}$${LOADED.first + index}`;
  const empty = (column: string): string => `${loading}!$${column}$${LOADED.empty}`;
  const at = (key: string): number => CASES.columns.findIndex((column) => column.key === key) + stations.length;
  const load = (index: number): string => rows(1 + index);
  /** What is left of a load at landing: a tank that is a tank now burns down to its least. */
  const left = (index: number): string =>
    `IF((${station(index, 'fuel')}="yes")*(${load(index)}>${station(index, 'min')}),${station(index, 'min')},${load(index)})`;
  const sum = (loadOf: (index: number) => string): string =>
    [empty('B'), ...stations.map((_, index) => loadOf(index))].join('+');
  const moment = (loadOf: (index: number) => string): string =>
    [empty('D'), ...stations.map((_, index) => `${loadOf(index)}*${station(index, 'arm')}`)].join('+');
  const ifCase = (formula: string): string => `IF(${rows(0)}="","",${formula})`;
  const judged = (weight: string, arm: string): string =>
    `IF(COUNT(${envelope})<6,"",TARE.BALANCE.JUDGE(${rows(at(weight))},${rows(at(arm))},${envelope}${unitsArgument(units)}))`;
  const labels = labelsOf(CASES, units);
  const plan = new SheetPlan(sheetName(CASES, name))
    .heading('Loading cases', [
      `One row a case, a column of ${unitWords('weight', units)} for each station of the sheet Loading, headed with its name.`,
      CAUTION,
    ])
    .header(header - 1, [labels[0]!, ...stations.map((one) => one.name), ...labels.slice(1)])
    .formula(first - 1, at('takeoffWeight'), ifCase(sum(load)))
    .formula(first - 1, at('takeoffArm'), ifCase(`(${moment(load)})/${rows(at('takeoffWeight'))}`))
    .formula(first - 1, at('takeoffVerdict'), judged('takeoffWeight', 'takeoffArm'))
    .formula(first - 1, at('landingWeight'), ifCase(sum(left)))
    .formula(first - 1, at('landingArm'), ifCase(`(${moment(left)})/${rows(at('landingWeight'))}`))
    .formula(first - 1, at('landingVerdict'), judged('landingWeight', 'landingArm'))
    .look(rows(0), 'text')
    .look(rows(at('takeoffWeight')), 'poundsComputed')
    .look(rows(at('takeoffArm')), 'inchesComputed')
    .look(rows(at('landingWeight')), 'poundsComputed')
    .look(rows(at('landingArm')), 'inchesComputed')
    .look(rows(at('note')), 'text');
  if (stations.length > 0) plan.look(`${cellName(first - 1, 1)}:${cellName(last - 1, stations.length)}`, 'pounds');
  return plan.widths([28, ...stations.map(() => 11), 12, 11, 66, 12, 11, 66, 44]).edits(add);
}

/** Writes a case over the one of that name, else below the last one. `loads` in lb; the cells get them in their columns' units. */
export function caseEdits(
  { form, stationColumns, stationUnits, cases }: CasesSheet,
  name: string,
  loads: readonly number[],
): Edit[] {
  const { sheet } = form;
  const known = cases.find((one) => sameName(one.name, name));
  const row = known?.row ?? Math.max(form.header, ...form.rows.map((one) => one.row)) + 1;
  const write = (column: number, cell: string | number): Edit => ({
    kind: 'write',
    range: { sheet, row, column, rows: 1, columns: 1 },
    cells: [[cell]],
  });
  return [
    write(form.columns.case ?? 0, name.trim()),
    ...stationColumns.flatMap((column, index) =>
      column === undefined || !stationUnits[index]
        ? []
        : [write(column, inUnit(loads[index] ?? 0, stationUnits[index]))],
    ),
  ];
}

/** Clears a saved case; the row stays, since results stand beside it. */
export function clearCaseEdits({ form, stationColumns }: CasesSheet, row: number): Edit[] {
  const columns = [
    form.columns.case ?? 0,
    ...stationColumns.flatMap((column) => column ?? []),
    ...(form.columns.note === undefined ? [] : [form.columns.note]),
  ];
  return columns.map((column) => ({
    kind: 'write',
    range: { sheet: form.sheet, row, column, rows: 1, columns: 1 },
    cells: [[null]],
  }));
}

/** Puts loads (lb), in the order of the stations, into the loading sheet's column Load; nothing where it has none. */
export function loadEdits({ form, stations }: Loading, loads: readonly number[]): Edit[] {
  const column = form.columns.load;
  if (column === undefined || form.refused.includes('load')) return [];
  return stations.map(({ row }, index) => ({
    kind: 'write',
    range: { sheet: form.sheet, row, column, rows: 1, columns: 1 },
    cells: [[inUnit(loads[index] ?? 0, form.units.load)]],
  }));
}
