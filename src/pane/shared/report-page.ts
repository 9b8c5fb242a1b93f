/** The printable report of the workbook beside the pane. Loaded when it is asked for. */
import { findDefinition } from '../../functions';
import { reportHtml } from '../../report';
import { type Workbook } from '../../sheet';
import { readProjectSheets, restingOn } from '../../project';

/**
 * @param date "2026-03-31"
 * @returns the page; undefined where the workbook has neither a parts list nor an airplane to weigh or load
 */
export async function reportPage(workbook: Workbook, date: string): Promise<string | undefined> {
  const sheets = await readProjectSheets(workbook);
  const formulas: string[] = [];
  for (const name of sheets.names) {
    const used = await workbook.usedRange(name);
    if (used) formulas.push(...(await workbook.readFormulas(used)).flat().flatMap((formula) => formula ?? []));
  }
  return reportHtml({
    title: workbook.title,
    date,
    sheets,
    resting: restingOn(sheets.values, await workbook.notRecalculated(), sheets.names),
    formulas,
    sourceOf: (name) => findDefinition(name)?.source,
  });
}
