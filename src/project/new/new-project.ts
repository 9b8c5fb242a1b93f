/**
 * What makes a workbook ready: those of the sheets Prices, Parts, Joints, Rivets, Hardware and Budget that it has not got.
 * Nothing is written over: a sheet of such a name that holds something else is left as it is, and named.
 */
import { distinctNames } from '../../core/names';
import { unitIn, type UnitSystem } from '../../core/quantity';
import { columnName, textIn, type Edit, type RangeAddress, type Workbook } from '../../sheet';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from '../forms';
import { OWN_RIVETS_SHEET, ownRivetsReference } from '../own-rivets';
import { HARDWARE_PART, RIVETS_PART } from '../rivet-rows';
import { readForm, type FormSheet } from '../rows';
import { newBudgetSheet } from './budget-sheet';
import {
  EXAMPLE_HARDWARE_COMPONENTS,
  NEW_HARDWARE_COLUMNS,
  NEW_PART_COLUMNS,
  newHardwareSheet,
  newPartsSheet,
  type Brought,
} from './parts-sheet';
import {
  EXAMPLE_JOINT_COMPONENTS,
  NEW_JOINT_COLUMNS,
  newJointsSheet,
  newRivetsSheet,
  OWN_RIVET_TABLE,
} from './joints-sheet';
import type { ChoiceList, FilledSheet, SummedColumns } from './plan';
import { blankPrices, examplePrices, newPriceList } from './price-list';
import { findPrices, PRICE_TABLE } from '../prices';
import { priceColumn } from '../../core/price';
import { ProjectReader, sheetsNamed, type ProjectSheets } from '../project-reader';

export interface NewProjectOptions {
  readonly units: UnitSystem;
  /** Invented rows that show how the sheets are filled in; none beside a price list of the user's own. */
  readonly examples: boolean;
  /** "2026-03-31": the date of the examples' quotes. */
  readonly today: string;
  readonly existing: ExistingProject;
  /** These sheets alone, and the price list that their costs come from; all if left out. */
  readonly only?: readonly ProjectSheetName[];
}

/** A sheet that the edits add or fill. */
export interface AddedSheet {
  readonly name: ProjectSheetName;
  /** Its name in the workbook: another than `name` where that was taken. */
  readonly sheet: string;
  readonly exampleRows: number;
  /** The cells to type in, "A6:L205". */
  readonly typed: string;
  /** The first of them. */
  readonly first: RangeAddress;
}

export interface NewProject {
  /** One batch; none where there is nothing to add. */
  readonly edits: readonly Edit[];
  readonly added: readonly AddedSheet[];
  /** Sheets that hold something else and are left as they are. */
  readonly left: readonly string[];
}

type Form = typeof PARTS | typeof JOINTS | typeof HARDWARE_FORM | typeof BUDGET;

/** The edits that add what is missing, as one batch, with what they add and what they leave alone. */
export function newProjectEdits({ units, examples: wanted, today, existing, only }: NewProjectOptions): NewProject {
  const examples = wanted && existing.prices === undefined;
  const isWanted = (name: string): boolean => !only || only.some((one) => sameSheetName(one, name));
  const make = ({ sheet }: Form): boolean =>
    isWanted(sheet) && !existing.forms[sheet] && (find(existing, sheet)?.empty ?? true);
  const prices = newPrices(existing, examples ? examplePrices(today) : undefined, examples);
  const rivets = newRivets(existing, { units, examples, wanted: isWanted(OWN_RIVETS_SHEET) || make(JOINTS) });
  const filled = newForms(existing, make, {
    units,
    examples,
    own: rivets ? `${OWN_RIVET_TABLE}[#All]` : existing.rivets,
    items: prices?.items,
  });
  // All sheets first, and the table: a formula may name only what is there.
  const sheets = filled.flatMap(([{ sheet }]): Edit[] =>
    find(existing, sheet) ? [] : [{ kind: 'addSheet', name: sheet }],
  );
  const made = [
    ...(prices?.edits ?? []),
    ...(rivets?.edits ?? []),
    ...sheets,
    ...filled.flatMap(([, { edits }]) => edits),
  ];
  // A new workbook's one empty sheet makes room for the project's.
  const blank = !only && made.length > 0 ? existing.blank : undefined;
  return {
    edits: blank === undefined ? made : [...made, { kind: 'removeSheet', name: blank }],
    added: [
      ...(prices ? [prices.added] : []),
      ...(rivets ? [{ name: OWN_RIVETS_SHEET, sheet: OWN_RIVETS_SHEET, ...shownOf(rivets) } as const] : []),
      ...filled.map(([{ sheet }, { exampleRows, typed, first }]): AddedSheet => ({
        name: sheet as ProjectSheetName,
        sheet,
        exampleRows,
        typed,
        first,
      })),
    ],
    left: existing.sheets
      .filter(
        ({ name, empty }) => !empty && isTaken(existing, name) && (isWanted(name) || sameSheetName(name, PRICE_TABLE)),
      )
      .map(({ name }) => name),
  };
}

/** The forms that are made, filled: each knows where the others have what it sums. */
function newForms(
  existing: ExistingProject,
  make: (form: Form) => boolean,
  {
    units,
    examples,
    own,
    items,
  }: {
    readonly units: UnitSystem;
    readonly examples: boolean;
    readonly own: string | undefined;
    readonly items: ChoiceList | undefined;
  },
): readonly (readonly [Form, FilledSheet])[] {
  const places = (form: Form, made: SummedColumns): SummedColumns | undefined =>
    make(form) ? made : summedColumns(existing.forms[form.sheet]);
  const joints = places(JOINTS, NEW_JOINT_COLUMNS);
  const hardware = places(HARDWARE_FORM, NEW_HARDWARE_COLUMNS);
  const parts = places(PARTS, NEW_PART_COLUMNS);
  const fillings: readonly (readonly [Form, () => FilledSheet])[] = [
    [PARTS, () => newPartsSheet({ units, examples, items, brought: broughtIn(existing, make, units, examples) })],
    [JOINTS, () => newJointsSheet({ units, examples, own })],
    [HARDWARE_FORM, () => newHardwareSheet({ units, examples })],
    [
      BUDGET,
      () =>
        newBudgetSheet({ units, examples, parts, others: [joints, hardware], hasCurrencies: hasCurrencies(existing) }),
    ],
  ];
  return fillings.flatMap(([form, fill]) => (make(form) ? [[form, fill()] as const] : []));
}

const find = (existing: ExistingProject, name: string) =>
  existing.sheets.find((sheet) => sameSheetName(sheet.name, name));

const shownOf = ({ exampleRows, typed, first }: FilledSheet): Omit<AddedSheet, 'name' | 'sheet'> => ({
  exampleRows,
  typed,
  first,
});

/** The sheet of own rivets, where it is wanted and its name is free. */
function newRivets(
  existing: ExistingProject,
  { units, examples, wanted }: { readonly units: UnitSystem; readonly examples: boolean; readonly wanted: boolean },
): FilledSheet | undefined {
  const there = find(existing, OWN_RIVETS_SHEET);
  if (!wanted || existing.rivets !== undefined || there?.empty === false) return undefined;
  return newRivetsSheet(units, examples, there === undefined);
}

/** True for a sheet that has the name of a project's sheet and is not one. */
function isTaken({ prices, rivets, forms }: ExistingProject, name: string): boolean {
  if (sameSheetName(name, PRICE_TABLE)) return prices === undefined;
  if (sameSheetName(name, OWN_RIVETS_SHEET)) return rivets === undefined;
  return [PARTS, JOINTS, HARDWARE_FORM, BUDGET].some(({ sheet }) => sameSheetName(sheet, name) && !forms[sheet]);
}

/** The table counts, not its sheet: beside a sheet Prices that holds something else there is room for Prices 2. */
function newPrices(
  existing: ExistingProject,
  rows: ReturnType<typeof examplePrices> | undefined,
  examples: boolean,
): { readonly edits: Edit[]; readonly added: AddedSheet; readonly items: ChoiceList } | undefined {
  if (existing.prices !== undefined) return undefined;
  const there = find(existing, PRICE_TABLE);
  let sheet = there?.empty ? there.name : (PRICE_TABLE as string);
  for (let number = 2; !there?.empty && find(existing, sheet); number += 1) sheet = `${PRICE_TABLE} ${number}`;
  const listed = rows ?? blankPrices();
  const columns = listed[0]!.length;
  return {
    edits: newPriceList(sheet, !there?.empty, listed),
    items: {
      choices: [...new Set(listed.map(([item]) => String(item ?? '')).filter((item) => item !== ''))],
      from: { sheet, row: 1, column: 0, rows: ITEMS, columns: 1 },
      open: true,
    },
    added: {
      name: PRICE_TABLE,
      sheet,
      exampleRows: examples ? listed.length : 0,
      typed: `A2:${columnName(columns - 1)}${listed.length + 1}`,
      first: { sheet, row: 1, column: 0, rows: 1, columns: 1 },
    },
  };
}

/** Rows of a price list whose items are offered. */
const ITEMS = 500;

/** The lists beside the parts, what their rows of the parts list are called, and the components of their examples. */
const BESIDE = [
  { form: JOINTS, made: NEW_JOINT_COLUMNS, part: RIVETS_PART, examples: EXAMPLE_JOINT_COMPONENTS },
  { form: HARDWARE_FORM, made: NEW_HARDWARE_COLUMNS, part: HARDWARE_PART, examples: EXAMPLE_HARDWARE_COMPONENTS },
] as const;

/**
 * The components of the joints and the hardware that are there, or of those that are made as examples, and where they are
 * summed. None where a list is in other units than the parts will be: a sum would be another number there.
 */
const broughtIn = (
  existing: ExistingProject,
  make: (form: Form) => boolean,
  units: UnitSystem,
  examples: boolean,
): Brought[] =>
  BESIDE.flatMap(({ form: list, made, part, examples: invented }): Brought[] => {
    if (make(list)) return examples ? [{ part, from: made, components: invented, areExamples: true }] : [];
    const form = existing.forms[list.sheet];
    const from = summedColumns(form);
    if (!form || !from || form.units.weight?.sign !== unitIn('weight', units).sign) return [];
    const components = distinctNames(form.rows.map(({ cells }) => textIn(cells.component))).filter(
      (name) => name !== '',
    );
    return [{ part, from, components, areExamples: false }];
  });

/** The table of prices that is there, or the one that is made, which does. */
const hasCurrencies = ({ prices, hasCurrencies: own = false }: ExistingProject): boolean => prices === undefined || own;

/** Rows below an existing header that sums reach, so that a list can grow. */
const ROOM = 500;

/** Where a sheet that is there has what is summed; undefined where it lacks a column. */
function summedColumns(form: FormSheet<string> | undefined): SummedColumns | undefined {
  const [component, weight, moment, cost, status] = ['component', 'weight', 'moment', 'cost', 'status'].map((key) =>
    form?.columns[key] === undefined ? undefined : columnName(form.columns[key]),
  );
  if (!form || !component || !weight || !moment) return undefined;
  const last = Math.max(form.header + ROOM, ...form.rows.map(({ row }) => row)) + 1;
  return { sheet: form.sheet, first: form.header + 2, last, component, weight, moment, cost, status };
}

/** The sheets by their forms' names, in the order in which they are added. */
export const PROJECT_SHEETS = ['Prices', 'Parts', 'Joints', 'Rivets', 'Hardware', 'Budget'] as const;
export type ProjectSheetName = (typeof PROJECT_SHEETS)[number];

const FORMS: readonly SheetForm[] = [PARTS, JOINTS, HARDWARE_FORM, BUDGET];

export interface ExistingProject {
  /** All sheets; `empty` is true of those that bear a project sheet's name and hold nothing. */
  readonly sheets: readonly { readonly name: string; readonly empty: boolean }[];
  /** The only sheet of the workbook where it is empty and none of these: the one that a new workbook comes with. */
  readonly blank?: string | undefined;
  /** The sheet of the price table, where there is one. */
  readonly prices: string | undefined;
  /** True where that table says a currency with each price. */
  readonly hasCurrencies?: boolean;
  /** What the joints' formulas call the own rivets: "Rivets[#All]", or their range; undefined where there are none. */
  readonly rivets: string | undefined;
  /** The sheets that have their form's header, by the form's name. */
  readonly forms: Readonly<Partial<Record<string, FormSheet<string>>>>;
}

const isOurs = (name: string): boolean => PROJECT_SHEETS.some((own) => sameSheetName(own, name));

const sameSheetName = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Reads what there is, all of it anew; a sheet is the project's by its header, not by its name. */
export async function existingProject(workbook: Workbook): Promise<ExistingProject> {
  const there = await ProjectReader.over(workbook).read(
    ({ names }) => (names.length === 1 ? names : sheetsNamed({ names }, ...PROJECT_SHEETS)).map((sheet) => ({ sheet })),
    PROJECT_SHEETS,
  );
  const { names, tables, values } = there;
  const forms: Record<string, FormSheet<string>> = {};
  const sheets: { name: string; empty: boolean }[] = [];
  let rivets: string | undefined;
  for (const name of names) {
    const cells = isOurs(name) ? values(name) : undefined;
    sheets.push({ name, empty: isOurs(name) && cells === undefined });
    const form = FORMS.find(({ sheet }) => sameSheetName(sheet, name));
    const found = form && cells && readForm(form, cells, name);
    if (cells && sameSheetName(name, OWN_RIVETS_SHEET)) rivets = ownRivetsReference(cells, tables);
    if (found) forms[form.sheet] = found;
  }
  const prices = findPrices(names, tables);
  return {
    sheets,
    blank: onlyBlank(there),
    prices: prices?.table?.range.sheet,
    hasCurrencies: isWithCurrencies(prices?.table?.columns ?? []),
    rivets,
    forms,
  };
}

const isWithCurrencies = (columns: readonly string[]): boolean =>
  (['item', 'currency'] as const).every((key) =>
    columns.some((label) => sameSheetName(label.trim(), priceColumn(key).label)),
  );

function onlyBlank({ sheets, values }: ProjectSheets): string | undefined {
  const [only] = sheets;
  return !only || sheets.length > 1 || only.protected || isOurs(only.name) || values(only.name) ? undefined : only.name;
}
