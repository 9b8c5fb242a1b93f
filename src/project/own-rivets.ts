/** The builder's own rivets: the sheet Rivets, whose wrong cells are named by their address. */
import { readOwnRivets, type OwnRivets } from '../core/fastener';
import { CellError, cellName } from '../sheet';
import type { Problem, SheetValues } from './problems';
import { unitsOfProject } from './project-units';

export const OWN_RIVETS_SHEET = 'Rivets';

export interface OwnRivetSheet {
  readonly rivets: OwnRivets;
  readonly problems: readonly Problem[];
}

/** The sheet; undefined where the workbook has none of that name with the table's header. */
export function readOwnRivetSheet(values: SheetValues, units = unitsOfProject(values)): OwnRivetSheet | undefined {
  const cells = values(OWN_RIVETS_SHEET);
  if (!cells) return undefined;
  const rivets = readOwnRivets(
    cells.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell))),
    units,
  );
  // A sheet of that name that holds something else is none of ours.
  if (rivets.rivets.length === 0 && rivets.problems[0]?.column === undefined) return undefined;
  return {
    rivets,
    problems: rivets.problems.map(({ row, column, message }) => ({
      sheet: OWN_RIVETS_SHEET,
      cell: cellName(row - 1, column ?? 0),
      message: message.replace(/^row \d+, /, ''),
    })),
  };
}
