/** Formulas that cannot be calculated keep their last values; what they are is said by name. */
import type { CellModel, SheetModel, Spill, WorkbookModel } from '../sheet';

export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

export interface KeptFormulas {
  /** "function FOO", "a reference to another workbook", "a circle of formulas". */
  readonly reason: string;
  readonly cells: readonly CellPlace[];
}

/** Collects formulas to keep, by reason. */
export class Keeper {
  private readonly reasons = new Map<string, Map<string, CellPlace>>();

  get isEmpty(): boolean {
    return this.reasons.size === 0;
  }

  keep(reason: string, place: CellPlace): void {
    let places = this.reasons.get(reason);
    if (!places) this.reasons.set(reason, (places = new Map<string, CellPlace>()));
    places.set(`${place.sheet} ${place.row} ${place.column}`, place);
  }

  list(): KeptFormulas[] {
    return [...this.reasons].map(([reason, places]) => ({ reason, cells: [...places.values()] }));
  }

  /** The model in which the kept formulas' values stand as plain ones. */
  frozen(model: WorkbookModel): WorkbookModel {
    if (this.isEmpty) return model;
    const places = this.list().flatMap(({ cells }) => cells);
    const sheets = model.sheets.map((sheet) => {
      const own = places.filter((place) => place.sheet === sheet.name);
      return own.length ? { ...sheet, cells: frozenCells(sheet, own) } : sheet;
    });
    return { ...model, sheets };
  }
}

function frozenCells(sheet: SheetModel, places: readonly CellPlace[]): (CellModel | undefined)[][] {
  const cells = [...sheet.cells];
  const copied = new Set<number>();
  const change = (row: number, column: number): void => {
    const cell = cells[row]?.[column];
    if (!cell) return;
    if (!copied.has(row)) cells[row] = [...cells[row]!];
    copied.add(row);
    cells[row]![column] = { value: cell.value, ...(cell.style === undefined ? {} : { style: cell.style }) };
  };
  for (const { row, column } of places) {
    const spill: Spill = sheet.cells[row]?.[column]?.spill ?? { rows: 1, columns: 1 };
    for (let r = row; r < row + spill.rows; r++)
      for (let c = column; c < column + spill.columns; c++)
        if ((r === row && c === column) || cells[r]?.[c]?.spilled) change(r, c);
  }
  return cells;
}
