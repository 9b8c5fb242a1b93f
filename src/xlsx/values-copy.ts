/**
 * A copy of a workbook for those who have no Tarebook: its TARE formulas are values, everything else stays as it is.
 * Ordinary formulas stay formulas, so that they must find what a TARE formula gave: A1# becomes the cells that it was.
 */
import { columnName, type CellModel, type NameModel, type SheetModel, type Spill, type WorkbookModel } from '../sheet';
import { callsTare, functionNames, references, replaced } from '../sheet/formula';
import { difference } from './difference';
import { changeAttributes, replaceElements } from './elements';
import { fromFile } from './formula-text';
import { Package } from './package';
import { patchWorkbook } from './patch';
import { readWorkbook } from './read';
import { tableParts } from './tables';
import { unescapeXml } from './xml';
import type { Codec } from './zip';

/**
 * @param bytes a workbook whose values are up to date: the copy keeps them as they are
 * @returns the copy, and how many formulas became values
 */
export function valuesCopy(
  bytes: Uint8Array,
  codec?: Codec,
): { readonly bytes: Uint8Array; readonly formulas: number } {
  const model = readWorkbook(bytes, codec);
  const { values, formulas } = withoutTare(model);
  const patched = patchWorkbook(bytes, difference(model, values), codec);
  return { bytes: withoutColumnFormulas(patched, codec), formulas };
}

function withoutTare(model: WorkbookModel): { readonly values: WorkbookModel; readonly formulas: number } {
  const isTare = tareTest(model.names);
  /** Extents of what becomes a value, by sheet and cell. */
  const spills = new Map<string, Spill>();
  let formulas = 0;
  const sheets = model.sheets.map((sheet) =>
    eachFormula(sheet, (cell, row, column) => {
      if (!isTare(cell.formula)) return cell;
      formulas++;
      if (cell.spill) spills.set(placeKey(sheet.name, row, column), cell.spill);
      const { formula: _formula, plain: _plain, spill: _spill, ...value } = cell;
      return value;
    }),
  );
  if (spills.size === 0) return { values: { ...model, sheets }, formulas };
  const names = model.names.map((name) => ({ ...name, refersTo: withRanges(name.refersTo, name.scope ?? '', spills) }));
  return {
    values: {
      ...model,
      names,
      sheets: sheets.map((sheet) =>
        eachFormula(sheet, (cell) => {
          const formula = withRanges(cell.formula, sheet.name, spills);
          return formula === cell.formula ? cell : { ...cell, formula };
        }),
      ),
    },
    formulas,
  };
}

type FormulaCell = CellModel & { readonly formula: string };

/** A sheet whose cells with formulas are changed; rows without one stay the same. */
function eachFormula(
  sheet: SheetModel,
  change: (cell: FormulaCell, row: number, column: number) => CellModel,
): SheetModel {
  const cells = sheet.cells.map((line, row) => {
    let changed: (CellModel | undefined)[] | undefined;
    line.forEach((cell, column) => {
      if (cell?.formula === undefined) return;
      const after = change(cell as FormulaCell, row, column);
      if (after !== cell) (changed ??= [...line])[column] = after;
    });
    return changed ?? line;
  });
  return { ...sheet, cells };
}

/** Gives a test for formulas that need Tarebook: those that call a TARE function, or a name whose formula does. */
function tareTest(names: readonly NameModel[]): (formula: string) => boolean {
  const ours = new Set<string>();
  const test = (formula: string): boolean =>
    callsTare(formula) ||
    (ours.size > 0 &&
      (functionNames(formula).some((name) => ours.has(name)) ||
        references(formula).some((found) => found.kind === 'name' && ours.has(found.name.toUpperCase()))));
  // A name may use one that is listed after it.
  for (let before = -1; before < ours.size;) {
    before = ours.size;
    for (const { name, refersTo } of names) if (test(refersTo)) ours.add(name.toUpperCase());
  }
  return test;
}

const placeKey = (sheet: string, row: number, column: number): string => `${sheet.toLowerCase()}!${row},${column}`;

/** A formula in which A1# is the range that A1 filled. */
function withRanges(formula: string, sheet: string, spills: ReadonlyMap<string, Spill>): string {
  if (!formula.includes('#')) return formula;
  const changes = references(formula).flatMap((found) => {
    if (found.kind !== 'spill' || found.isElsewhere) return [];
    const { top, left } = found.node;
    const spill = spills.get(placeKey(found.sheet ?? sheet, top.at, left.at));
    if (!spill) return [];
    const last = `${left.fixed ? '$' : ''}${columnName(left.at + spill.columns - 1)}${top.fixed ? '$' : ''}${top.at + spill.rows}`;
    return [{ start: found.end - 1, end: found.end, text: `:${last}` }];
  });
  return replaced(formula, changes);
}

/** Removes a table's formula for new rows where it would put a TARE formula into each of them. */
function withoutColumnFormulas(bytes: Uint8Array, codec: Codec | undefined): Uint8Array {
  const file = new Package(bytes, codec);
  const changed = tableParts(file).flatMap((part) => {
    const before = file.text(part);
    const after = withoutTareColumns(before);
    return after === before ? [] : [[part, after] as const];
  });
  for (const [part, text] of changed) file.set(part, text);
  return changed.length > 0 ? file.save() : bytes;
}

const withoutTareColumns = (table: string): string =>
  replaceElements(table, 'tableColumn', ({ start, end }) => {
    const computed = withoutTareElement(table.slice(start, end), 'calculatedColumnFormula');
    const after = withoutTareElement(computed, 'totalsRowFormula');
    // Without its formula a total of the kind "custom" is a fault of the file.
    return after === computed
      ? after
      : changeAttributes(after, 'tableColumn', () => new Map([['totalsRowFunction', 'none']]));
  });

const withoutTareElement = (xml: string, name: string): string =>
  replaceElements(xml, name, ({ inside }) =>
    callsTare(fromFile(unescapeXml(xml.slice(inside, xml.indexOf('<', inside))))) ? '' : undefined,
  );
