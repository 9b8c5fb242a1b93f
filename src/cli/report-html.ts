/** The printable report of a workbook, for the command line. */
import { findDefinition } from '../functions';
import { reportHtml } from '../report';
import type { MarkedPlace, WorkbookModel } from '../sheet';
import { projectSheetsOf, restingOn } from '../project';

/**
 * @param date "2026-03-31"
 * @returns the page; undefined where the workbook has neither a parts list nor an airplane to weigh or load
 */
export function reportPage(
  title: string,
  model: WorkbookModel,
  date: string,
  marked: readonly MarkedPlace[] = [],
): string | undefined {
  const sheets = projectSheetsOf(model);
  const formulas = model.sheets.flatMap(({ cells }) =>
    cells.flatMap((row) => (row ?? []).flatMap((cell) => (cell?.formula === undefined ? [] : [cell.formula]))),
  );
  return reportHtml({
    title,
    date,
    sheets,
    resting: restingOn(sheets.values, marked, sheets.names),
    formulas,
    sourceOf: (name) => findDefinition(name)?.source,
  });
}
