/**
 * Conditional formats of a sheet, and the looks that they give. Rules that compare, that look for text and that are
 * formulas all become one formula, which is written for the first cell of the rule. Source: ECMA-376 part 1, 18.3.1.10
 * (cfRule), 18.3.1.16 (colorScale), 18.3.1.28 (dataBar), 18.3.1.49 (iconSet), 18.18.12 (ST_CfType), 18.8.14 (dxf), 18.8.32
 * (patternFill); [MS-XLSX] 2.6.30 (x14:dataBar).
 */
import { cellName, type RangeAddress } from '../../sheet';
import { textLiteral } from '../../sheet/formula';
import { fromFile } from '../formula-text';
import { baseOf, parseAreas } from '../structure/areas';
import { isTrue } from '../xml';
import { XmlTree, type XmlElement } from '../xml-tree';
import { colorOf, themeColors } from '../read-styles';
import type { Package } from '../package';
import type { WorkbookPart } from '../workbook-part';

/** A place on the scale of a rule: from the numbers of its cells, or given. */
export interface Threshold {
  readonly kind: 'min' | 'max' | 'num' | 'percent' | 'percentile' | 'formula' | 'autoMin' | 'autoMax';
  /** A formula, mostly a number. */
  readonly value: string;
  /** False where a value has to be above it. */
  readonly includes: boolean;
}

export type Condition =
  | { readonly type: 'formula'; readonly formula: string }
  | { readonly type: 'top'; readonly rank: number; readonly isPercent: boolean; readonly isBottom: boolean }
  | { readonly type: 'average'; readonly isAbove: boolean; readonly includes: boolean; readonly deviations: number }
  | { readonly type: 'repeated'; readonly isUnique: boolean };

export type Scale =
  | { readonly type: 'colors'; readonly thresholds: readonly Threshold[]; readonly colors: readonly string[] }
  | {
      readonly type: 'bar';
      readonly thresholds: readonly Threshold[];
      readonly color: string;
      readonly negativeColor: string | undefined;
      /** Of the cell's width, in percent. */
      readonly shortest: number;
      readonly longest: number;
    }
  | {
      readonly type: 'icons';
      readonly thresholds: readonly Threshold[];
      readonly isReversed: boolean;
      readonly isArrow: boolean;
    };

interface Placed {
  readonly areas: readonly RangeAddress[];
  /** The cell that formulas are written for. */
  readonly base: { readonly row: number; readonly column: number };
  readonly stops: boolean;
}

export type ConditionalRule = Placed &
  ({ readonly condition: Condition; readonly look: ConditionalLook } | { readonly scale: Scale });

/** Rules of a sheet, the first to be looked at first. `root` is the sheet's part without its cells. */
export function readConditions(root: XmlElement, sheet: string, palette: Palette): ConditionalRule[] {
  const formats = [...root.walk()].filter(({ name }) => name === 'conditionalFormatting');
  const extended = new Map<string, XmlElement>();
  for (const format of formats)
    if (format.get('sqref') === undefined)
      for (const rule of format.named('cfRule')) extended.set(rule.get('id') ?? '', rule);
  const found: { rule: ConditionalRule; priority: number }[] = [];
  const completed = new Set<XmlElement>();
  // Rules of the main schema come before the extensions that complete them.
  for (const format of formats) {
    const areas = parseAreas(format.get('sqref') ?? format.named('sqref')[0]?.text ?? '', sheet);
    if (!areas) continue;
    const base = baseOf(areas);
    for (const element of format.named('cfRule')) {
      if (completed.has(element)) continue;
      const more = extended.get(idOf(element));
      if (more) completed.add(more);
      const what = ruleOf(element, more, cellName(base.row, base.column), palette);
      const placed = { areas, base, stops: isTrue(element.get('stopIfTrue')) };
      if (what) found.push({ rule: { ...placed, ...what }, priority: Number(element.get('priority') ?? 0) });
    }
  }
  return found.sort((a, b) => a.priority - b.priority).map(({ rule }) => rule);
}

/** The id by which a rule names the extension that completes it. */
const idOf = (rule: XmlElement): string =>
  rule
    .named('extLst')
    .flatMap((list) => [...list.walk()])
    .find(({ name, elements }) => name === 'id' && elements.length === 0)?.text ?? ' ';

type What = { condition: Condition; look: ConditionalLook } | { scale: Scale };

function ruleOf(element: XmlElement, more: XmlElement | undefined, cell: string, palette: Palette): What | undefined {
  const scale = scaleOf(element, more, palette);
  if (scale) return { scale };
  const condition = conditionOf(element, cell);
  const [own] = element.named('dxf');
  const look = own ? palette.look(own) : palette.looks[Number(element.get('dxfId') ?? NaN)];
  return condition && { condition, look: look ?? {} };
}

function conditionOf(rule: XmlElement, cell: string): Condition | undefined {
  const type = rule.get('type');
  switch (type) {
    case 'top10':
      return {
        type: 'top',
        rank: Number(rule.get('rank') ?? 10),
        isPercent: isTrue(rule.get('percent')),
        isBottom: isTrue(rule.get('bottom')),
      };
    case 'aboveAverage':
      return {
        type: 'average',
        isAbove: isTrue(rule.get('aboveAverage') ?? '1'),
        includes: isTrue(rule.get('equalAverage')),
        deviations: Number(rule.get('stdDev') ?? 0),
      };
    case 'duplicateValues':
    case 'uniqueValues':
      return { type: 'repeated', isUnique: type === 'uniqueValues' };
    default: {
      const formula = formulaOf(rule, cell);
      return formula === undefined ? undefined : { type: 'formula', formula };
    }
  }
}

const OPERATORS: Readonly<Record<string, string>> = {
  lessThan: '<',
  lessThanOrEqual: '<=',
  equal: '=',
  notEqual: '<>',
  greaterThanOrEqual: '>=',
  greaterThan: '>',
};

function formulaOf(rule: XmlElement, cell: string): string | undefined {
  const [first, second] = [...rule.named('formula'), ...rule.named('f')].map(({ text }) => fromFile(text));
  const type = rule.get('type') ?? '';
  if (type !== 'cellIs') return first ?? BY_KIND.get(type)?.(cell, textLiteral(rule.get('text') ?? ''));
  if (first === undefined) return undefined;
  const operator = rule.get('operator') ?? '';
  const sign = OPERATORS[operator];
  if (sign !== undefined) return `${cell}${sign}(${first})`;
  if (second === undefined) return undefined;
  // The bounds may stand in either order.
  const inside = (low: string, high: string): string => `AND(${cell}>=(${low}),${cell}<=(${high}))`;
  const between = `OR(${inside(first, second)},${inside(second, first)})`;
  if (operator === 'between') return between;
  return operator === 'notBetween' ? `NOT(${between})` : undefined;
}

/** Programs that write these kinds write the formula, too. Where one is missing, it follows from the kind. */
const BY_KIND: ReadonlyMap<string, (cell: string, text: string) => string> = new Map(
  Object.entries({
    containsText: (cell, text) => `NOT(ISERROR(SEARCH(${text},${cell})))`,
    notContainsText: (cell, text) => `ISERROR(SEARCH(${text},${cell}))`,
    beginsWith: (cell, text) => `LEFT(${cell},LEN(${text}))=${text}`,
    endsWith: (cell, text) => `RIGHT(${cell},LEN(${text}))=${text}`,
    containsBlanks: (cell) => `LEN(TRIM(${cell}))=0`,
    notContainsBlanks: (cell) => `LEN(TRIM(${cell}))>0`,
    containsErrors: (cell) => `ISERROR(${cell})`,
    notContainsErrors: (cell) => `NOT(ISERROR(${cell}))`,
  }),
);

function scaleOf(rule: XmlElement, more: XmlElement | undefined, palette: Palette): Scale | undefined {
  const [colors] = rule.named('colorScale');
  if (colors)
    return {
      type: 'colors',
      thresholds: thresholdsOf(colors),
      colors: colors.named('color').map((one) => palette.color(one) ?? '#ffffff'),
    };
  const [icons] = rule.named('iconSet');
  if (icons)
    return {
      type: 'icons',
      thresholds: thresholdsOf(icons),
      isReversed: isTrue(icons.get('reverse')),
      isArrow: /Arrows|Triangles/.test(icons.get('iconSet') ?? ''),
    };
  const [bar] = rule.named('dataBar');
  return bar && barOf(bar, more?.named('dataBar')[0], palette);
}

function barOf(bar: XmlElement, more: XmlElement | undefined, palette: Palette): Scale {
  const said = more ?? bar;
  const thresholds = thresholdsOf(said);
  return {
    type: 'bar',
    thresholds: thresholds.length === 2 ? thresholds : thresholdsOf(bar),
    color: palette.color(bar.named('color')[0] ?? bar.named('fillColor')[0]) ?? '#638ec6',
    negativeColor: palette.color(more?.named('negativeFillColor')[0]),
    shortest: Number(said.get('minLength') ?? (more ? 0 : 10)),
    longest: Number(said.get('maxLength') ?? (more ? 100 : 90)),
  };
}

const thresholdsOf = (scale: XmlElement): Threshold[] =>
  scale.named('cfvo').map((one) => ({
    kind: (one.get('type') ?? 'num') as Threshold['kind'],
    value: fromFile(one.get('val') ?? one.named('f')[0]?.text ?? '0'),
    includes: isTrue(one.get('gte') ?? '1'),
  }));

/** What a rule changes in the look of a cell; what it leaves out stays as the cell has it. */
export interface ConditionalLook {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly underline?: boolean;
  readonly strike?: boolean;
  /** "#rrggbb" */
  readonly color?: string;
  readonly fill?: string;
  /** A thin line around the cell. */
  readonly border?: boolean;
}

/** What elements of looks and colours mean in a workbook. */
export interface Palette {
  /** By the index that rules name. */
  readonly looks: readonly ConditionalLook[];
  color(element: XmlElement | undefined): string | undefined;
  look(dxf: XmlElement): ConditionalLook;
}

export function readPalette(file: Package, { styles, theme }: WorkbookPart): Palette {
  const colors = theme && file.has(theme) ? themeColors(file.text(theme)) : [];
  const color = (element: XmlElement | undefined): string | undefined =>
    element && colorOf((name) => element.get(name), colors);
  const look = (dxf: XmlElement): ConditionalLook => lookOf(dxf, color);
  const root = styles ? new XmlTree(file.text(styles)).root : undefined;
  const looks = root?.listed('dxfs', 'dxf').map(look) ?? [];
  return { looks, color, look };
}

function lookOf(dxf: XmlElement, color: Palette['color']): ConditionalLook {
  const [font] = dxf.named('font');
  const [border] = dxf.named('border');
  const textColor = color(font?.named('color')[0]);
  const fill = fillOf(dxf.named('fill')[0]?.named('patternFill')[0], color);
  const has = (name: string): boolean | undefined => {
    const [element] = font?.named(name) ?? [];
    return element && !/^(0|false|none)$/.test(element.get('val') ?? '1');
  };
  return {
    ...given('bold', has('b')),
    ...given('italic', has('i')),
    ...given('underline', has('u')),
    ...given('strike', has('strike')),
    ...given('color', textColor),
    ...given('fill', fill),
    ...given('border', border?.elements.some((side) => (side.get('style') ?? 'none') !== 'none') || undefined),
  };
}

const given = <K extends string, V>(key: K, value: V | undefined): Partial<Record<K, V>> =>
  value === undefined ? {} : ({ [key]: value } as Record<K, V>);

/** In these looks a plain fill has its colour as that of the background, unlike those of cells. */
const fillOf = (pattern: XmlElement | undefined, color: Palette['color']): string | undefined =>
  !pattern || pattern.get('patternType') === 'none'
    ? undefined
    : (color(pattern.named('bgColor')[0]) ?? color(pattern.named('fgColor')[0]));
