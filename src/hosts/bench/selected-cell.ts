/** What there is to say of the selected cell and its row, followed as the selection and the cells change. */
import { readRowFigures, rowFiguresText } from '../../project';
import { CellError, cellName, followSelection, type RangeAddress, type Unsubscribe, type Workbook } from '../../sheet';

export interface SelectedCell {
  /** Why the cell shows an error, or was not recalculated. */
  readonly explanation?: string | undefined;
  /** What its row of a list comes to. */
  readonly rowFigures?: string | undefined;
}

export const followSelectedCell = (workbook: Workbook, show: (said: SelectedCell) => void): Unsubscribe =>
  followSelection(
    workbook,
    async (range): Promise<SelectedCell> => {
      if (!range) return {};
      const [explanation, figures] = await Promise.all([
        explain(workbook, range).catch(() => undefined),
        readRowFigures(workbook, range.sheet, range.row).catch(() => undefined),
      ]);
      return { explanation, rowFigures: figures && rowFiguresText(figures) };
    },
    show,
  );

async function explain(workbook: Workbook, { sheet, row, column }: RangeAddress): Promise<string | undefined> {
  const cell = (await workbook.read({ sheet, row, column, rows: 1, columns: 1 }))[0]?.[0];
  const message = await workbook.explain(sheet, row, column);
  const code = cell instanceof CellError ? ` ${cell.code}` : '';
  return message || code ? `${cellName(row, column)}${code}${message ? ` ${message}` : ''}` : undefined;
}
