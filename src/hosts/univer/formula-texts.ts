import { isFormulaString, type ICellData, type Injector, type Nullable, type ObjectMatrix } from '@univerjs/core';
import { LexerTreeBuilder } from '@univerjs/engine-formula';

/** Formulas of a sheet's cells: one that was filled down stands in the first one, and the others name it. */
export class FormulaTexts {
  private firsts: Map<string, { readonly text: string; readonly row: number; readonly column: number }> | undefined;

  constructor(
    private readonly injector: Injector,
    private readonly cells: ObjectMatrix<Nullable<ICellData>>,
  ) {}

  at(row: number, column: number, data: Nullable<ICellData>): string | undefined {
    if (data?.f && isFormulaString(data.f)) return data.f;
    if (!data?.si) return undefined;
    const first = (this.firsts ??= this.found()).get(data.si);
    return (
      first &&
      this.injector.get(LexerTreeBuilder).moveFormulaRefOffset(first.text, column - first.column, row - first.row)
    );
  }

  private found(): NonNullable<FormulaTexts['firsts']> {
    const firsts: NonNullable<FormulaTexts['firsts']> = new Map();
    this.cells.forValue((row, column, data) => {
      if (data?.si && data.f && isFormulaString(data.f)) firsts.set(data.si, { text: data.f, row, column });
    });
    return firsts;
  }
}
