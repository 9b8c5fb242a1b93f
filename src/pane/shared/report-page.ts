/** The printable report of the workbook beside the pane. Loaded when it is asked for. */
import { findDefinition } from '../../functions';
import { reportHtml } from '../../report';
import { ProjectReader, restingOn, wholeProject } from '../../project';
import type { Workbook } from '../../sheet';

/**
 * @param date "2026-03-31"
 * @returns the page; undefined where the workbook has neither a parts list nor an airplane to weigh or load
 */
export async function workbookReport(workbook: Workbook, date: string): Promise<string | undefined> {
  // The list of sources goes by the formulas of all sheets.
  const sheets = await ProjectReader.over(workbook).read((there) => [
    ...wholeProject(there),
    ...there.names.map((sheet) => ({ sheet, formulas: true })),
  ]);
  return reportHtml({
    title: workbook.title,
    date,
    sheets,
    resting: restingOn(sheets.values, await workbook.notRecalculated(), sheets.names),
    formulas: sheets.names.flatMap((name) =>
      (sheets.formulas(name) ?? []).flatMap((line) => line.flatMap((one) => one ?? [])),
    ),
    sourceOf: (name) => findDefinition(name)?.source,
  });
}
