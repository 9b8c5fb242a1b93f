/** Why the selected cell shows an error, or was not recalculated, in words, followed as the selection and the cells change. */
import { CellError, cellName, type RangeAddress, type Workbook } from '../../sheet';

export function cellExplanation(workbook: Workbook, show: (text: string | undefined) => void): () => void {
  let latest = 0;
  const look = async (range: RangeAddress | undefined): Promise<void> => {
    const turn = (latest += 1);
    const text = range && (await explain(workbook, range).catch(() => undefined));
    if (turn === latest) show(text);
  };
  const again = (): void => void workbook.selection().then(look, () => show(undefined));
  const stops = [workbook.onSelection((range) => void look(range)), workbook.onChange(again)];
  return () => {
    latest = -1;
    stops.forEach((stop) => stop());
  };
}

async function explain(workbook: Workbook, { sheet, row, column }: RangeAddress): Promise<string | undefined> {
  const cell = (await workbook.read({ sheet, row, column, rows: 1, columns: 1 }))[0]?.[0];
  const message = await workbook.explain(sheet, row, column);
  const code = cell instanceof CellError ? ` ${cell.code}` : '';
  return message || code ? `${cellName(row, column)}${code}${message ? ` ${message}` : ''}` : undefined;
}
