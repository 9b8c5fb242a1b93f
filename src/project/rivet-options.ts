/** Reading what is compared: the joints of the workbook, and the options, tools and minutes of the sheet Rivet options. */
import { ByName, sameName } from '../core/names';
import { HEAD_FORMS, isBlind, rivet, type OwnRivets, type PickStyle, type Rivet } from '../core/fastener';
import { InputError } from '../core/input-error';
import {
  DEFAULT_TERMS,
  isPulled,
  readKind,
  shearKey,
  type ChoiceJoint,
  type MakersShear,
  type RivetKind,
  type RivetOption,
  type Terms,
  type Tool,
} from '../core/rivet-choice';
import { fromUnit, readUnit, typedNumber, unitIn, type UnitSystem } from '../core/quantity';
import { cellName, textIn } from '../sheet';
import { findFacts, type Fact } from './facts';
import { NO_COMPONENT } from './parts';
import { ifTaken, kept, unlessRefused, type Problem, type SheetValues } from './reading';
import { keptInUnits, partsSystem, readerOf } from './project-units';
import {
  COUNT_RULES,
  EXCEPTION_LIST,
  ONE_SIDE,
  OPTION_LIST,
  RIVET_FACTS,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  SHEAR_LIST,
  TOOL_LIST,
  type RivetFact,
} from './rivet-options-forms';
import type { FormKey } from './forms';
import { numberText, readForm, type FormRow, type FormSheet, type NumberRule, type RowReader } from './rows';
import { eachRow, factNumber } from './settings';

export type RivetJointKey = FormKey<typeof RIVET_JOINTS>;

export interface RivetJoint extends ChoiceJoint {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly component: string;
  readonly joint: string;
  readonly oneSide: boolean;
}

export interface RivetJoints {
  readonly form: FormSheet<RivetJointKey>;
  /** The system that the joints are shown in: the workbook's. */
  readonly units: UnitSystem;
  readonly joints: readonly RivetJoint[];
  readonly problems: readonly Problem[];
}

const STYLES = ['universal', 'flush', 'blind', 'blind retained'] as const;
const WITHIN: NumberRule = { above: 0, max: 4, takes: ({ unit, number }) => `${unit} above 0 and up to ${number(4)}` };
const SHANK: NumberRule = { above: 0, max: 1, takes: ({ unit, number }) => `${unit} above 0: ${number(0.125)}` };

/** The joints that rivets can be picked for; undefined where no sheet has their header. Their names have the component before them. */
export const readRivetJoints = keptInUnits(
  (values: SheetValues, units: UnitSystem, own?: OwnRivets): RivetJoints | undefined => {
    const reader = readerOf(values, RIVET_JOINTS);
    const components = new ByName((name) => name, NO_COMPONENT);
    return (
      reader && {
        form: reader.sheet,
        units,
        joints: reader.sheet.rows.flatMap((row) => readJoint(row, reader, components, own) ?? []),
        problems: reader.problems,
      }
    );
  },
);

function readJoint(
  row: FormRow<RivetJointKey>,
  reader: RowReader<RivetJointKey>,
  components: ByName<string>,
  own: OwnRivets | undefined,
): RivetJoint | undefined {
  const { cells } = row;
  const thicknesses = sheetsOf(row, reader);
  const sheets = thicknesses.reduce((sum, thickness) => sum + thickness, 0);
  const grip = reader.number(row, 'grip', WITHIN) ?? (sheets > 0 ? sheets : undefined);
  const diameter = reader.needed(row, 'diameter', SHANK);
  const count = reader.needed(row, 'count', { min: 0, max: 1e7, takes: 'rivets, 0 or more' });
  if (grip === undefined && cells.grip === undefined && !reader.isRefused('grip'))
    reader.problem(
      row,
      'grip',
      `is blank, and so are the sheets; takes the grip in ${(reader.sheet.units.grip ?? reader.sheet.units.sheet1)?.words ?? 'inches'}`,
    );
  if (grip === undefined || diameter === undefined || count === undefined) return undefined;
  const style = STYLES.find((one) => one === textIn(cells.style).toLowerCase());
  const component = components.get(textIn(cells.component));
  const joint = textIn(cells.joint) || `row ${row.row + 1}`;
  return {
    row: row.row,
    component,
    joint,
    name: `${component}: ${joint}`,
    grip,
    diameter,
    count,
    style: style ?? 'universal',
    oneSide: textIn(cells.access).toLowerCase() === ONE_SIDE,
    ...pickedOf(cells, style ?? 'universal', own),
    ...layoutOf(cells, thicknesses),
  };
}

/** What is known of a joint from the rivet that its row has picked. */
function pickedOf(
  cells: FormRow<RivetJointKey>['cells'],
  style: PickStyle,
  own: OwnRivets | undefined,
): Partial<RivetJoint> {
  const named = namedRivet(textIn(cells.rivet), own);
  const alloy = alloyOf(named, style);
  return { ...(alloy === undefined ? {} : { alloy }), ...(named?.kind === 'own' ? { own: named } : {}) };
}

/** Thicknesses, the sheet under the head first: of the column Sheets where it says them, else of Sheet 1 to 3. */
function sheetsOf(row: FormRow<RivetJointKey>, reader: RowReader<RivetJointKey>): number[] {
  const { cells } = row;
  const { units, system } = reader.sheet;
  const written = typeof cells.sheets === 'number' ? String(cells.sheets) : textIn(cells.sheets);
  if (written === '')
    return [cells.sheet1, cells.sheet2, cells.sheet3].flatMap((cell) =>
      typeof cell === 'number' && cell > 0 ? [cell] : [],
    );
  const unit = units.sheet1 ?? units.grip ?? unitIn('length', system === 'mm-kg' ? 'mm-kg' : 'in-lb');
  const read = written.split('+').map((one) => {
    const typed = typedNumber(one);
    const own = typed?.sign === undefined ? unit : readUnit(typed.sign, 'length');
    return typed && own ? fromUnit(typed.value, own) : NaN;
  });
  if (read.every((thickness) => thickness > 0 && thickness <= 2)) return read;
  reader.problem(
    row,
    'sheets',
    `got "${written}"; takes ${unit.words}, the sheet under the head first, such as ${[0.016, 0.02].map((one) => numberText(one, unit)).join('+')}`,
  );
  return [];
}

/** What the rules of layout and the strength ask for, as far as the row says it. */
function layoutOf(cells: FormRow<RivetJointKey>['cells'], sheets: readonly number[]): Partial<RivetJoint> {
  const number = (cell: unknown): number[] => (typeof cell === 'number' && cell > 0 ? [cell] : []);
  const edges = [...number(cells.edge), ...number(cells.flangeEdge)];
  const head = HEAD_FORMS.find((one) => one === textIn(cells.head).toLowerCase());
  return {
    ...Object.fromEntries(number(cells.pitch).map((pitch) => ['pitch', pitch])),
    ...(edges.length > 0 ? { edge: Math.min(...edges) } : {}),
    ...(sheets.length > 0
      ? { thickestSheet: Math.max(...sheets), thinnestSheet: Math.min(...sheets), outerSheet: sheets[0]! }
      : {}),
    ...(textIn(cells.sheetMaterial) === '' ? {} : { sheetMaterial: textIn(cells.sheetMaterial) }),
    ...(typeof cells.rows === 'number' && cells.rows >= 1 ? { rows: cells.rows } : {}),
    ...(head ? { head } : {}),
  };
}

/** A rivet by its designation; undefined where that is none. */
export const namedRivet = (designation: string, own: OwnRivets | undefined): Rivet | undefined =>
  ifTaken(() => rivet(designation, 'rivet', own));

/** The alloy's letters of the rivet that the sheet has picked; no other column says them. */
function alloyOf(found: Rivet | undefined, style: PickStyle): string | undefined {
  if (!found || isBlind(found) !== isPulled(style)) return undefined;
  return found.kind === 'solid' ? found.alloy : found.kind === 'blind' ? found.pair : undefined;
}

export interface NamedKind {
  readonly name: string;
  readonly text: string;
  readonly kind: RivetKind;
}

export interface Exception {
  readonly row: number;
  readonly option: string;
  readonly joint: string;
  readonly text: string;
  readonly kind: RivetKind;
}

export interface RivetOptionsSheet {
  readonly options: readonly NamedKind[];
  readonly exceptions: readonly Exception[];
  readonly terms: Terms;
  /** Places of the settings that the sheet has. */
  readonly facts: Readonly<Partial<Record<RivetFact, Fact>>>;
  readonly optionList: FormSheet<FormKey<typeof OPTION_LIST>> | undefined;
  readonly exceptionList: FormSheet<FormKey<typeof EXCEPTION_LIST>> | undefined;
  readonly toolList: FormSheet<FormKey<typeof TOOL_LIST>> | undefined;
  readonly shearList: FormSheet<FormKey<typeof SHEAR_LIST>> | undefined;
  readonly problems: readonly Problem[];
}

/** What is compared where the workbook does not say: nothing of it is a recommendation. */
export const USUAL_OPTIONS: readonly (readonly [name: string, kind: string])[] = [
  ['As designed', 'as designed'],
  ['Solid 3/32', 'solid 3/32'],
  ['Solid 1/8', 'solid 1/8'],
  ['Blind aluminium', 'blind AA 1/8'],
  ['Blind, steel stem', 'blind AS 1/8'],
];

export const usualOptions = (): NamedKind[] =>
  USUAL_OPTIONS.map(([name, text]) => ({ name, text, kind: readKind(text) }));

/** The sheet Rivet options; undefined where the workbook has none with a list of options. */
export const readRivetOptions = kept((values: SheetValues, own?: OwnRivets): RivetOptionsSheet | undefined => {
  const cells = values(RIVET_OPTIONS_SHEET);
  const optionList = cells && readForm(OPTION_LIST, cells);
  if (!optionList) return undefined;
  const system = partsSystem(values);
  const toolList = readForm(TOOL_LIST, cells, RIVET_OPTIONS_SHEET, system);
  const shearList = readForm(SHEAR_LIST, cells, RIVET_OPTIONS_SHEET, system);
  const problems: Problem[] = [...(toolList?.problems ?? []), ...(shearList?.problems ?? [])];
  const options = optionList.rows.flatMap(({ row, cells: { option, kind } }): NamedKind[] => {
    const text = textIn(kind);
    const read =
      text === '' && textIn(option) === ''
        ? undefined
        : kindAt({ text, list: optionList, row, key: 'kind' }, problems, own);
    return read ? [{ name: textIn(option) || text, text, kind: read }] : [];
  });
  const exceptionList = readForm(EXCEPTION_LIST, cells);
  const exceptions = (exceptionList?.rows ?? []).flatMap(({ row, cells: { option, joint, kind } }): Exception[] => {
    const text = textIn(kind);
    const read = text === '' ? undefined : kindAt({ text, list: exceptionList!, row, key: 'kind' }, problems, own);
    return read ? [{ row, option: textIn(option), joint: textIn(joint), text, kind: read }] : [];
  });
  const facts = findFacts(cells, RIVET_FACTS);
  const terms: Terms = {
    ...readTerms(facts, problems),
    tools: readTools(toolList, problems),
    makersShear: readShear(shearList, problems),
    ...(own ? { own } : {}),
  };
  return { options, exceptions, terms, facts, optionList, exceptionList, toolList, shearList, problems };
});

interface KindCell<K extends string> {
  readonly text: string;
  readonly list: FormSheet<K>;
  readonly row: number;
  readonly key: K;
}

function kindAt<K extends string>(
  { text, list, row, key }: KindCell<K>,
  problems: Problem[],
  own?: OwnRivets,
): RivetKind | undefined {
  const kind = unlessRefused(() => readKind(text, 'Rivets', own));
  if (!(kind instanceof InputError)) return kind;
  problems.push({ sheet: list.sheet, cell: cellName(row, list.columns[key] ?? 0), message: kind.message });
  return undefined;
}

function readTerms(facts: RivetOptionsSheet['facts'], problems: Problem[]): Omit<Terms, 'tools' | 'makersShear'> {
  const number = (key: RivetFact, otherwise: number, max: number): number => {
    const said = ({ value }: Fact): string =>
      `${RIVET_FACTS[key]}: got ${String(value)}; takes a number from 0 to ${max}. ${otherwise} is used`;
    return factNumber(RIVET_OPTIONS_SHEET, facts[key], { min: 0, max }, said, problems) ?? otherwise;
  };
  const word = (key: RivetFact): string =>
    String(facts[key]?.value ?? '')
      .trim()
      .toLowerCase();
  const { minutes } = DEFAULT_TERMS;
  return {
    ...DEFAULT_TERMS,
    labourRate: number('labourRate', 0, 1e6),
    minutes: {
      solid: { drill: number('drillSolid', minutes.solid.drill, 120), set: number('setSolid', minutes.solid.set, 120) },
      blind: { drill: number('drillBlind', minutes.blind.drill, 120), set: number('setBlind', minutes.blind.set, 120) },
    },
    secondPerson: /^(?:yes|y|true|x|1)$/.test(word('secondPerson')),
    matchShear: word('countRule') === COUNT_RULES[1],
  };
}

const readTools = (list: RivetOptionsSheet['toolList'], problems: Problem[]): Tool[] =>
  eachRow(list, problems, (row, reader): Tool[] => {
    const price = reader.needed(row, 'price', { min: 0, max: 1e9, takes: 'money, 0 or more; left out until then' });
    const use = (['solid', 'blind', 'all'] as const).find((one) => one === textIn(row.cells.use).toLowerCase());
    if (use === undefined)
      reader.problem(row, 'use', `got "${textIn(row.cells.use)}"; takes solid, blind or all. The tool is left out`);
    const diameter = reader.number(row, 'diameter', SHANK);
    const life = reader.number(row, 'life', { above: 0, takes: 'rivets, above 0' });
    return price === undefined || use === undefined
      ? []
      : [
          {
            name: textIn(row.cells.tool) || `Tool in row ${row.row + 1}`,
            for: use,
            price,
            owned: /^(?:yes|y|true|x)$/i.test(textIn(row.cells.owned)),
            ...(diameter === undefined ? {} : { diameter }),
            ...(life === undefined ? {} : { life }),
          },
        ];
  });

const readShear = (list: RivetOptionsSheet['shearList'], problems: Problem[]): MakersShear =>
  Object.fromEntries(
    eachRow(list, problems, (row, reader): (readonly [string, number])[] => {
      const figure = reader.number(row, 'shear', {
        above: 0,
        max: 1e5,
        takes: ({ unit }) => `${unit} above 0, from the maker’s data sheet`,
      });
      const place = { list: reader.sheet, row: row.row, key: 'rivet' } as const;
      const kind = kindAt({ text: `blind ${textIn(row.cells.rivet)}`, ...place }, problems);
      if (kind && kind.diameter === undefined)
        reader.problem(row, 'rivet', 'has no diameter; takes body and mandrel with the diameter: "AA 1/8"');
      if (figure === undefined || kind?.diameter === undefined) return [];
      const stem = kind.style === 'blind retained' ? 'retained' : 'broken';
      return [[shearKey(kind.alloy ?? 'AA', Math.round(kind.diameter * 32), stem), figure]];
    }),
  );

/** The exception that an option has at a joint, named with or without its component. */
export const exceptionAt = (
  exceptions: readonly Exception[],
  option: string,
  { name, joint }: Pick<RivetJoint, 'name' | 'joint'>,
): Exception | undefined =>
  exceptions.findLast(
    (one) => sameName(one.option, option) && (sameName(one.joint, name) || sameName(one.joint, joint)),
  );

/** The options for the comparison of those joints, exceptions worked in. */
export const rivetOptions = (
  options: readonly NamedKind[],
  exceptions: readonly Exception[],
  joints: readonly RivetJoint[],
): RivetOption[] =>
  options.map(({ name, kind }) => ({
    name,
    kinds: joints.map((joint) => exceptionAt(exceptions, name, joint)?.kind ?? kind),
  }));
