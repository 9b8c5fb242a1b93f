/**
 * What in a sheet's part names cells of it or holds formulas, by element and attribute. Cells themselves, and rules
 * whose formulas are written for the first of several cells, stand elsewhere (cells.ts, frame.ts).
 * Source: ECMA-376 part 1, 18.3 (worksheets), all attributes of the types ST_Ref, ST_CellRef, ST_Sqref and ST_Formula
 * of sml.xsd, and those that count rows or columns; [MS-XLSX] 2.6 for what stands in extensions.
 */

/** How a reference follows, and what becomes of it when its cells are gone. */
export type RuleKind =
  /** A range or a cell; the element goes with its cells. */
  | 'ref'
  /** As ref, but the element stays where it is, because it describes a view. */
  | 'view'
  /** As ref, but only the attribute is removed. */
  | 'optional'
  /** Several ranges; the element goes with the last of them. */
  | 'refs'
  /** A formula, seen from this sheet. */
  | 'formula'
  /** As formula, but unchanged where its cells are gone: a link that leads nowhere does no harm. */
  | 'link';

export interface FrameRule {
  readonly kind: RuleKind;
  /** Name of the attribute; left out where the element's text is meant. */
  readonly attribute?: string;
}

const ref: readonly FrameRule[] = [{ kind: 'ref', attribute: 'ref' }];
const r: readonly FrameRule[] = [{ kind: 'ref', attribute: 'r' }];
const sqref: readonly FrameRule[] = [{ kind: 'refs', attribute: 'sqref' }];
const topLeft: readonly FrameRule[] = [{ kind: 'view', attribute: 'topLeftCell' }];

/** Elements of a sheet's part by name; those of extensions (x14, xm) have names that the main schema does not use, or the same meaning. */
export const FRAME_RULES: Readonly<Record<string, readonly FrameRule[]>> = {
  sheetPr: [{ kind: 'optional', attribute: 'syncRef' }],
  dimension: [{ kind: 'view', attribute: 'ref' }],
  sheetView: topLeft,
  customSheetView: topLeft,
  pane: topLeft,
  selection: [
    { kind: 'view', attribute: 'activeCell' },
    { kind: 'view', attribute: 'sqref' },
  ],
  protectedRange: sqref,
  inputCells: r,
  scenarios: [{ kind: 'optional', attribute: 'sqref' }],
  autoFilter: ref,
  sortState: ref,
  sortCondition: ref,
  mergeCell: ref,
  hyperlink: [...ref, { kind: 'link', attribute: 'location' }],
  cellWatch: r,
  cellSmartTags: r,
  ignoredError: sqref,
  webPublishItem: [{ kind: 'optional', attribute: 'sourceRef' }],
  controlPr: [
    { kind: 'formula', attribute: 'linkedCell' },
    { kind: 'formula', attribute: 'listFillRange' },
  ],
  // Sparklines and what else an extension refers to.
  f: [{ kind: 'formula' }],
  sqref: [{ kind: 'refs' }],
};

/** Elements that hold a list. They are removed when the list is empty. */
export const LISTS: ReadonlySet<string> = new Set([
  'cols',
  'scenario',
  'scenarios',
  'protectedRanges',
  'dataRefs',
  'mergeCells',
  'dataValidations',
  'hyperlinks',
  'rowBreaks',
  'colBreaks',
  'cellWatches',
  'ignoredErrors',
  'smartTags',
  'tableParts',
  'webPublishItems',
  'conditionalFormattings',
  'sparklines',
  'sparklineGroup',
  'sparklineGroups',
  'ext',
  'extLst',
]);

/** Elements that are removed as a whole when the reference inside them is, and not only the reference's own element. */
export const HOLDERS: Readonly<Record<string, readonly string[]>> = {
  sqref: ['sparkline', 'ignoredError', 'protectedRange'],
};
