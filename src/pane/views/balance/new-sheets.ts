/** The sheets that a workbook without an airplane is given: headers, choices, and an invented airplane that shows how they are filled. */
import type { Gear, Load } from '../../../core/balance';
import { fromUnit, inUnit, unitIn, type Dimension, type Unit, type UnitSystem } from '../../../core/quantity';
import {
  CASES,
  ENVELOPE,
  ENVELOPE_SOURCE,
  findFact,
  LOADING,
  newCasesSheet,
  newEnvelopeSheet,
  newLoadingSheet,
  newWeighingSheet,
  readForm,
  WEIGHING,
  WEIGHING_FACTS,
  type NewAirplane,
  type NewStation,
  type SheetForm,
} from '../../../project';
import { isFormula, type Cell, type Edit, type Workbook } from '../../../sheet';
import { t } from '../../locale';
import { writeCell } from '../../shared/edits';

const INVENTED = 'invented example, put your own';

/** An airplane whose figures fill a new sheet, in inches and pounds. */
interface Example {
  readonly airplane: {
    readonly stations: readonly (NewStation & Required<Pick<NewStation, 'arm' | 'min' | 'max'>>)[];
    readonly envelope: readonly Load[];
  };
  /** Reading, tare, arm. */
  readonly points: readonly (readonly [number, number, number])[];
  readonly chord: { readonly lemac: number; readonly mac: number };
  readonly loads: readonly number[];
}

const EXAMPLES: Readonly<Record<Gear, Example>> = {
  tailwheel: {
    airplane: {
      stations: [
        { name: 'Pilot', arm: 78, min: 110, max: 250 },
        { name: 'Passenger', arm: 78, min: 0, max: 250 },
        { name: 'Baggage', arm: 118, min: 0, max: 60 },
        { name: 'Fuel', arm: 69, min: 18, max: 144, fuel: true },
      ],
      envelope: [
        { arm: 66.5, weight: 800 },
        { arm: 66.5, weight: 1050 },
        { arm: 69, weight: 1320 },
        { arm: 74.5, weight: 1320 },
        { arm: 74.5, weight: 800 },
      ],
    },
    points: [
      [374.5, 4, 58.25],
      [379, 4, 58.25],
      [61.5, 15.5, 243.5],
    ],
    chord: { lemac: 60, mac: 54 },
    loads: [170, 0, 20, 108],
  },
  nosewheel: {
    airplane: {
      stations: [
        { name: 'Pilot', arm: 52, min: 110, max: 250 },
        { name: 'Passenger', arm: 82, min: 0, max: 230 },
        { name: 'Baggage', arm: 104, min: 0, max: 60 },
        { name: 'Fuel', arm: 46, min: 24, max: 150, fuel: true },
      ],
      envelope: [
        { arm: 47.5, weight: 1000 },
        { arm: 47.5, weight: 1250 },
        { arm: 51, weight: 1600 },
        { arm: 55.5, weight: 1600 },
        { arm: 55.5, weight: 1000 },
      ],
    },
    points: [
      [397, 3, 62.5],
      [401.5, 3, 62.5],
      [236.5, 3, 4.25],
    ],
    chord: { lemac: 36.5, mac: 56 },
    loads: [180, 165, 0, 96],
  },
};

export type SheetKind = 'weighing' | 'loading' | 'envelope' | 'cases';
const FORMS = { weighing: WEIGHING, loading: LOADING, envelope: ENVELOPE, cases: CASES } as const;

export const sheetNameFor = (kind: SheetKind, name: string): string =>
  name === '' ? FORMS[kind].sheet : `${FORMS[kind].sheet} ${name}`;

/** Whether the sheet has to be added: false where there is an empty one. One that holds something is refused with these words. */
export async function hasToBeAdded(workbook: Workbook, name: string, refused: string): Promise<boolean> {
  const known = (await workbook.sheets()).find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
  if (known && (await workbook.usedRange(known.name))) throw new Error(refused);
  return !known;
}

export interface NewSheets {
  readonly edits: readonly Edit[];
  /** Sentences that say what was added. */
  readonly added: string;
}

/** Rounds an inch-pound value to whole steps of the system's unit, as somebody types it there; inches and pounds stay what they are. */
export const roundIn =
  (units: UnitSystem) =>
  (value: number, dimension: Dimension, step: number): number => {
    const unit = unitIn(dimension, units);
    return units === 'in-lb' ? value : fromUnit(Math.round(inUnit(value, unit) / step) / (1 / step), unit);
  };

/** The example with figures that are round in the units of the sheets. */
function exampleIn(gear: Gear, units: UnitSystem): Example {
  const { airplane, points, chord, loads } = EXAMPLES[gear];
  const round = roundIn(units);
  const arm = (value: number): number => round(value, 'length', 5);
  const weight = (value: number): number => round(value, 'weight', 0.5);
  return {
    airplane: {
      stations: airplane.stations.map((station) => ({
        ...station,
        arm: arm(station.arm),
        min: weight(station.min),
        max: weight(station.max),
      })),
      envelope: airplane.envelope.map((corner) => ({
        arm: arm(corner.arm),
        weight: round(corner.weight, 'weight', 5),
      })),
    },
    points: points.map(([reading, tare, at]) => [weight(reading), weight(tare), arm(at)]),
    chord: { lemac: arm(chord.lemac), mac: arm(chord.mac) },
    loads: loads.map(weight),
  };
}

/** An airplane's four sheets with an invented example; throws words where a name is taken. */
export async function exampleSheets(
  workbook: Workbook,
  name: string,
  gear: Gear,
  units: UnitSystem,
): Promise<NewSheets> {
  const example = exampleIn(gear, units);
  const airplane: NewAirplane = { name, gear, units, ...example.airplane };
  const edits: Edit[] = [];
  for (const kind of Object.keys(FORMS) as SheetKind[]) edits.push(...(await sheetEdits(workbook, kind, airplane)));
  const sheets = {
    weighing: sheetNameFor('weighing', name),
    loading: sheetNameFor('loading', name),
    envelope: sheetNameFor('envelope', name),
    cases: sheetNameFor('cases', name),
  };
  edits.push(
    ...fillWeighing(edits, sheets.weighing, example),
    ...fillLoading(edits, sheets.loading, example),
    ...fillEnvelope(edits, sheets.envelope),
    ...fillCases(edits, sheets.cases, example, units),
  );
  return {
    edits,
    added: t(
      'Added the sheets {weighing}, {loading}, {envelope} and {cases}, with an invented {gear, select, tailwheel {tailwheel} other {nosewheel}} airplane that shows how they are filled. Put your own figures in its place, and the limits from your aircraft’s own documents.',
      { ...sheets, gear },
    ),
  };
}

/** One sheet that an airplane has not got yet, without example figures. */
export async function missingSheet(workbook: Workbook, kind: SheetKind, airplane: NewAirplane): Promise<NewSheets> {
  return {
    edits: await sheetEdits(workbook, kind, airplane),
    added: t('Added the sheet {sheet}.', { sheet: sheetNameFor(kind, airplane.name) }),
  };
}

async function sheetEdits(workbook: Workbook, kind: SheetKind, airplane: NewAirplane): Promise<Edit[]> {
  const sheet = sheetNameFor(kind, airplane.name);
  const add = await hasToBeAdded(
    workbook,
    sheet,
    t('The sheet {sheet} already holds something else. Rename it, or give the airplane its own name.', { sheet }),
  );
  if (kind !== 'loading') return MAKERS[kind](airplane, add);
  const weighing = sheetNameFor('weighing', airplane.name).toLowerCase();
  const weighed = (await workbook.sheets()).some(({ name }) => name.toLowerCase() === weighing);
  return newLoadingSheet(airplane, add, weighed || airplane.envelope !== undefined);
}

const MAKERS = { weighing: newWeighingSheet, envelope: newEnvelopeSheet, cases: newCasesSheet } as const;

/** What a sheet that is being made will hold. */
export function valuesOf(edits: readonly Edit[], sheet: string): Cell[][] {
  const write = edits.find((edit) => edit.kind === 'write' && edit.range.sheet === sheet && edit.range.row === 0);
  return write?.kind === 'write' ? write.cells.map((row) => row.map((cell) => (isFormula(cell) ? null : cell))) : [];
}

/** @param unit of the cell, where `cell` is an inch-pound number */
const put = (sheet: string, row: number, column: number | undefined, cell: string | number, unit?: Unit): Edit[] =>
  column === undefined ? [] : [writeCell(sheet, row, column, typeof cell === 'number' ? inUnit(cell, unit) : cell)];

function found<K extends string>(edits: readonly Edit[], form: SheetForm<K>, sheet: string) {
  const values = valuesOf(edits, sheet);
  return { values, form: readForm(form, values, sheet)! };
}

function fillWeighing(edits: readonly Edit[], sheet: string, { points, chord }: Example): Edit[] {
  const { values, form } = found(edits, WEIGHING, sheet);
  const fact = (key: keyof typeof WEIGHING_FACTS, cell: string | number): Edit[] => {
    const place = findFact(values, WEIGHING_FACTS[key]);
    return place ? put(sheet, place.row, place.column, cell, place.unit) : [];
  };
  return [
    ...fact('airplane', INVENTED),
    ...fact('lemac', chord.lemac),
    ...fact('mac', chord.mac),
    ...points.flatMap(([reading, tare, arm], index) => {
      const row = form.header + 1 + index;
      return [
        ...put(sheet, row, form.columns.reading, reading, form.units.reading),
        ...put(sheet, row, form.columns.tare, tare, form.units.tare),
        ...put(sheet, row, form.columns.arm, arm, form.units.arm),
      ];
    }),
  ];
}

function fillLoading(edits: readonly Edit[], sheet: string, { loads }: Example): Edit[] {
  const { form } = found(edits, LOADING, sheet);
  return loads.flatMap((load, index) => [
    ...put(sheet, form.header + 1 + index, form.columns.load, load, form.units.load),
    ...put(sheet, form.header + 1 + index, form.columns.note, INVENTED),
  ]);
}

function fillEnvelope(edits: readonly Edit[], sheet: string): Edit[] {
  const { values, form } = found(edits, ENVELOPE, sheet);
  const from = findFact(values, ENVELOPE_SOURCE);
  return [
    ...(from ? put(sheet, from.row, from.column, INVENTED) : []),
    ...form.rows.flatMap(({ row }) => put(sheet, row, form.columns.note, INVENTED)),
  ];
}

function fillCases(edits: readonly Edit[], sheet: string, { loads }: Example, units: UnitSystem): Edit[] {
  const { form } = found(edits, CASES, sheet);
  const row = form.header + 1;
  const first = (form.columns.case ?? 0) + 1;
  return [
    ...put(sheet, row, form.columns.case, 'Example'),
    ...loads.flatMap((load, index) => put(sheet, row, first + index, load, unitIn('weight', units))),
    ...put(sheet, row, form.columns.note, INVENTED),
  ];
}
