/** A sheet whose columns have been matched: what a column may mean, a column of the parts list, and the words that headers have for it. */
import { isBlank, textIn, type Cell } from '../../sheet';
import { readUnit, unitsOf, type Dimension, type Unit } from '../../core/quantity';
import { form, PARTS, type FormColumn, type PartKey } from '../forms';

export type Cells = readonly (readonly Cell[])[];

export interface HeaderPlace {
  /** First row of the header, from 0. */
  readonly row: number;
  readonly height: 1 | 2;
}

export interface ColumnMatch {
  readonly column: number;
  /** As `headersAt` gives it. */
  readonly header: string;
  readonly means: Means;
  /** Sign of a unit, or "gauge"; '' for what has none. */
  readonly unit: string;
  readonly readAs: ReadAs;
}

/** Where a list without a column of components has them from: its sheet's name, or rows that are headings. */
export type ComponentFrom = 'sheet' | 'headings';

export interface SheetMatch {
  readonly sheet: string;
  readonly place: HeaderPlace;
  readonly columns: readonly ColumnMatch[];
  readonly component?: ComponentFrom | undefined;
}

export interface Header {
  /** What the column is called; told apart from another of the same name by "#2", and by its letter where it has none. */
  readonly text: string;
  /** The label of each row of the header. */
  readonly labels: readonly string[];
}

/** A header may be of two rows: "Weight" over "each" and "total", or units below the labels. */
export function headersAt(values: Cells, { row, height }: HeaderPlace): Header[] {
  const top = values[row] ?? [];
  const below = height === 2 ? (values[row + 1] ?? []) : [];
  const seen = new Map<string, number>();
  /** What a merged label over several columns says of those to its right. */
  let over = '';
  return Array.from({ length: Math.max(top.length, below.length) }, (_, column) => {
    const [own, lower] = [textIn(top[column]), textIn(below[column])];
    if (own !== '') over = own;
    else if (lower === '') over = '';
    const upper = own === '' && lower !== '' ? over : own;
    const labels = [upper, lower].filter((label) => label !== '').map((label) => label.replace(/\s+/g, ' '));
    const text = labels.join(' / ');
    if (text === '') return { text, labels };
    const times = (seen.get(text.toLowerCase()) ?? 0) + 1;
    seen.set(text.toLowerCase(), times);
    return { text: times > 1 ? `${text} #${times}` : text, labels };
  });
}

/** True for a row without a cell that says something. */
export const isEmptyRow = (line: readonly Cell[] | undefined): boolean =>
  (line ?? []).every((cell) => isBlank(cell) || textIn(cell) === '');

/** Each is Weight read as "each piece"; Moment and Use follow from the others. */
export type Means = Exclude<PartKey, 'each' | 'moment' | 'use'>;

/** How the numbers of a column count; of a component, what a blank cell means. */
export const READ_AS = ['each piece', 'all pieces', 'as above'] as const;
export type ReadAs = (typeof READ_AS)[number] | '';

/** Stand for a header where the component is in no column. */
export const SHEET_NAME = '(sheet name)';
export const HEADINGS = '(headings)';

/** The unit of a thickness that is given by numbers of Brown & Sharpe gauge (ASTM B258). */
export const GAUGE = 'gauge';

/** Headers of a column whose cells are "60 x 22.5": length and width in one, or the thickness with them. */
const SIZE = /^(?:(?:cut|blank|flat|sheet|stock|raw) )?(?:size|dimensions?|dims?|abmessung(?:en)?|maße?)$/;

/** From the surest word to the vaguest, for a header in lower case without its unit. */
const WORDS: Readonly<Partial<Record<Means, readonly RegExp[]>>> = {
  weight: [/^(?:weight|wt|wgt|mass|gewicht|masse)$/, /\b(?:weight|wt|wgt|mass|gewicht|masse)\b/, /gewicht$/],
  weighed: [/^weighed$/, /\b(?:weighed|(?:scale|actual|measured) (?:weight|wt))\b/],
  part: [
    /^(?:part|part name|name|description|part description|benennung|bezeichnung|teil)$/,
    /\b(?:description|nomenclature|part name|item name|designation|bezeichnung|benennung)\b/,
    /^(?:items?|details?|piece|parts|teile)$/,
    /^(?:part|item)\b(?!.*\b(?:no|nr|number)\b)/,
    /\b(?:part|item|p) ?(?:no|nr|number|n)$/,
  ],
  component: [
    /^(?:component|sub ?assembly|assembly|assy|baugruppe)$/,
    /\b(?:component|assembly|assy|group|section|system|zone)\b/,
  ],
  quantity: [
    /^(?:qty|quantity|anzahl|stück|stückzahl|menge|pcs|pieces|count|no off|off|number)$/,
    /^(?!.*(?:weight|wt|mass|gewicht)).*\b(?:qty|quantity|pcs|pieces|req'?d|required|anzahl|stk|no of)\b/,
  ],
  thickness: [
    /^(?:thickness|gauge|gage|thk|dicke|blechdicke|wandstärke)$/,
    /\b(?:thickness|thick|gauge|gage|thk|wall|dicke)\b/,
    /^(?:t|ga)$/,
  ],
  material: [/^(?:material|alloy|matl|werkstoff|legierung)$/, /\b(?:material|alloy|mat'?l|mat|temper|werkstoff)\b/],
  arm: [
    /^(?:arm|station|sta|fs|moment arm|cg|hebelarm)$/,
    /\b(?:arm|station|sta|fs|f s|hebelarm|cg|c g)\b/,
    /^(?:location|position|x|distance)\b/,
  ],
  area: [/^(?:flat area|area|fläche)$/, /\barea\b/],
  cutLength: [/^(?:(?:cut|blank|flat|sheet) )?(?:length|len|lg|long|länge)$/, /^l$/, SIZE],
  cutWidth: [/^(?:(?:cut|blank|flat|sheet) )?(?:width|wide|wd|breite)$/, /^w$/],
  cost: [/^(?:cost|price|preis|kosten)$/, /\b(?:cost|price|preis|kosten)\b/],
};

/** Columns whose number makes a row a part of the list: one with a text alone is a note or a heading. */
export const COUNTING: readonly Means[] = [
  'weight',
  'weighed',
  'quantity',
  'thickness',
  'area',
  'arm',
  'cost',
  'cutLength',
];

/** Size and material say what a part weighs that has no weight. */
function saysSize(columns: readonly Pick<ColumnMatch, 'means' | 'header'>[]): boolean {
  const has = (means: Means): boolean => columns.some((one) => one.means === means);
  const isOneText = columns.some(({ means, header }) => means === 'cutLength' && SIZE.test(plainHeader(header)));
  return has('material') && (isOneText || (has('thickness') && (has('area') || (has('cutLength') && has('cutWidth')))));
}

/** What columns lack for a list of parts: without a name a row is no part, and without a weight or a size nobody knows what it weighs. */
export const lackingOf = (columns: readonly Pick<ColumnMatch, 'means' | 'header'>[]): Means[] =>
  (['part', 'weight'] as const).filter(
    (means) => !columns.some((one) => one.means === means) && !(means === 'weight' && saysSize(columns)),
  );

const BARE = /^(.*) \(.*\)$/;
/** The parts list's label without its unit: what stands under Means. */
export const meaningLabel = (means: Means): string => {
  const { label } = columnOf(means);
  return BARE.exec(label)?.[1] ?? label;
};

/** The same for what a list lacks: what would do in its place, too. */
export const lackingLabel = (means: Means): string =>
  means === 'weight'
    ? `${meaningLabel(means)} (or ${(['material', 'thickness', 'cutLength'] as const).map(meaningLabel).join(', ')} and ${meaningLabel('cutWidth')})`
    : meaningLabel(means);

export const MEANINGS: readonly Means[] = PARTS.columns
  .map(({ key }) => key)
  .filter((key): key is Means => key !== 'each' && key !== 'moment' && key !== 'use');

const columnOf = (means: Means): FormColumn<PartKey> => PARTS.columns.find(({ key }) => key === means)!;
export const dimensionOf = (means: Means): Dimension | undefined => columnOf(means).dimension;

/** One row a matched column; a person reads it and may change it. */
export const MATCHES = form('Matches', 'matched columns', [
  { key: 'sheet', label: 'Sheet', required: true, help: 'the sheet with the list' },
  {
    key: 'header',
    label: 'Header',
    required: true,
    help: `the column's header, as it stands there; ${SHEET_NAME} or ${HEADINGS} for the component of a list without such a column`,
  },
  {
    key: 'means',
    label: 'Means',
    required: true,
    choices: MEANINGS.map(meaningLabel),
    help: 'what the column holds',
  },
  { key: 'unit', label: 'Unit', help: `of its numbers; ${GAUGE} for numbers of Brown & Sharpe gauge` },
  {
    key: 'readAs',
    label: 'Read as',
    choices: READ_AS,
    help: 'of a weight or a cost: each piece or all pieces of the row; of a component: a blank cell is as above',
  },
]);

const EACH =
  /\b(?:each|ea|unit(?!\s*:)|apiece|single)\b|\bper (?:piece|part|item|unit|pc)\b|\/\s*(?:pcs?|piece|part|ea|each|unit|stk)\b|\b(?:je|pro) stück\b|stückgewicht|einzelgewicht/;
const ALL = /\b(?:total|all|row|line|ext|extended|sum|gesamt)\b|gesamtgewicht/;

/** What a header says of its numbers: "Weight each", "Unit weight", "lb/pc"; "Total weight". */
export function saidReadAs(header: string): ReadAs {
  const text = header.toLowerCase();
  const [each, all] = [EACH.test(text), ALL.test(text)];
  return each === all ? '' : each ? 'each piece' : 'all pieces';
}

const tokensOf = (header: string): string[] =>
  header
    .toLowerCase()
    .split(/[\s()[\],;:/_]+/)
    .filter((token) => token !== '');

const isUnit = (token: string): boolean =>
  (['length', 'weight', 'area'] as const).some((dimension) => readUnit(token, dimension) !== undefined);

/** The unit of that dimension that a header names, in brackets or as a word: kg of "Mass kg". */
export function namedUnit(header: string, dimension: Dimension): Unit | undefined {
  const tokens = tokensOf(header);
  for (let index = tokens.length - 1; index > 0; index--) {
    const two = `${tokens[index - 1]!} ${tokens[index]!}`;
    const found = readUnit(two, dimension) ?? readUnit(tokens[index]!, dimension);
    if (found) return found;
  }
  // A row of units below the labels has nothing else.
  return tokens.length === 1 ? readUnit(tokens[0]!, dimension) : undefined;
}

/** A header as the words are looked for: without units, "each" and the like. */
function plainHeader(header: string): string {
  const tokens = tokensOf(header.toLowerCase().replace(EACH, ' ').replace(ALL, ' ').replace(/[#.]/g, ' '));
  while (tokens.length > 1 && (isUnit(tokens.at(-1)!) || tokens.at(-1) === 'in')) tokens.pop();
  return tokens.join(' ');
}

/** How well a header fits a meaning: 0 not at all, 5 by the parts list's own label. */
export function fitOf(header: string, means: Means): number {
  const text = plainHeader(header);
  // "Each (lb)", "lbs": what has a unit of weight and no other word is a weight.
  if (text === '' || isUnit(text)) return means === 'weight' && namedUnit(header, 'weight') ? 2 : 0;
  if (text === meaningLabel(means).toLowerCase()) return 5;
  const at = (WORDS[means] ?? []).findIndex((word) => word.test(text));
  return at < 0 ? 0 : 4 - at * 0.75;
}

/** Signs that may be chosen for a column of that meaning. */
export const unitChoices = (means: Means): string[] => {
  const dimension = dimensionOf(means);
  const signs = dimension ? unitsOf(dimension).map(({ sign }) => sign) : [];
  return means === 'thickness' ? [...signs, GAUGE] : signs;
};
