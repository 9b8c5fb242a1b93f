/** What there is to say of cells: of the selected one and its row, and of those that were not recalculated. */
import { readRowFigures, rowFiguresText } from '../../project';
import {
  CellError,
  cellName,
  followSelection,
  quoteSheet,
  type RangeAddress,
  type Unsubscribe,
  type Workbook,
} from '../../sheet';
import type { NotRecalculated } from '../univer';

export interface SelectedCell {
  /** Why the cell shows an error, or was not recalculated. */
  readonly explanation?: string | undefined;
  /** What its row of a list comes to. */
  readonly rowFigures?: string | undefined;
}

/** Follows the selection and the cells as they change. */
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

/** Reasons that are named; more of them are counted. */
const MOST_REASONS = 3;

/** "EDATE is not known here: Parts!B7 keeps the file’s value. 2 cells that depend on it are not recalculated." */
export function uncalculatedText(cells: readonly NotRecalculated[]): string {
  const own = cells.filter(isOwn);
  const reasons = [...new Set(own.map(({ reason }) => reason))];
  const said = reasons.slice(0, MOST_REASONS).map((reason) => {
    const [first, ...others] = own.filter((cell) => cell.reason === reason);
    const name = nameOf(first!);
    return others.length === 0
      ? `${reason}: ${name} keeps the file’s value.`
      : `${reason}: ${name} and ${others.length} more ${others.length === 1 ? 'cell' : 'cells'} keep the file’s values.`;
  });
  if (reasons.length > MOST_REASONS) said.push(`So do cells for ${reasons.length - MOST_REASONS} more reasons.`);
  const resting = cells.length - own.length;
  if (resting > 0)
    said.push(
      resting === 1
        ? '1 cell that depends on them is not recalculated.'
        : `${resting} cells that depend on them are not recalculated.`,
    );
  return said.join(' ');
}

const isOwn = ({ sheet, row, column, because }: NotRecalculated): boolean =>
  because.sheet === sheet && because.row === row && because.column === column;

const nameOf = ({ sheet, row, column }: NotRecalculated): string => `${quoteSheet(sheet)}!${cellName(row, column)}`;
