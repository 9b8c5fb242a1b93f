/** Making a workbook ready, or adding one of its sheets, as one step. */
import type { UnitSystem } from '../../../core/quantity';
import { WorkbookError, type RangeAddress, type Workbook } from '../../../sheet';
import { existingProject, newProjectEdits, ProjectReader, type ProjectSheetName } from '../../../project';
import { t } from '../../locale';
import type { PaneContext } from '../../shared/view';
import type { Made } from './start-store';

/** Adds what is missing; throws where the workbook refuses, and then nothing is added. */
export async function makeReady({ workbook, today }: PaneContext, units: UnitSystem, examples: boolean): Promise<Made> {
  const { edits, added, left } = newProjectEdits({
    units,
    examples,
    today: today(),
    existing: await existingProject(workbook),
  });
  if (edits.length > 0) await workbook.apply(t('Make this workbook ready'), edits);
  // The person goes on in the parts list. A host that cannot show a place has added the sheets all the same.
  const first = added.find(({ name }) => name === 'Parts')?.first;
  if (first) await workbook.select(first).catch(() => undefined);
  return { added, left };
}

/** What would be added, and what left as it is. */
export async function foreseen({ workbook, today }: PaneContext): Promise<Made> {
  const { added, left } = newProjectEdits({
    units: 'in-lb',
    examples: false,
    today: today(),
    existing: await existingProject(workbook),
  });
  return { added, left };
}

/** Adds one sheet without examples, in the workbook's own units, and the price list for its costs where the workbook has none. */
export async function addProjectSheet({ workbook, today }: PaneContext, name: ProjectSheetName): Promise<void> {
  const { edits, left } = newProjectEdits({
    units: (await ProjectReader.over(workbook).read(() => [])).units,
    examples: false,
    today: today(),
    existing: await existingProject(workbook),
    only: [name],
  });
  const taken = left.find((sheet) => sheet.toLowerCase() === name.toLowerCase());
  if (taken !== undefined)
    throw new WorkbookError('name-taken', t('The sheet {sheet} already holds something else', { sheet: taken }));
  await workbook.apply(t('Add the sheet {sheet}', { sheet: name }), edits);
}

/** Where the first row below a sheet's header begins; undefined where there is no such sheet, or no header. */
export async function firstRow(workbook: Workbook, name: ProjectSheetName): Promise<RangeAddress | undefined> {
  const form = (await existingProject(workbook)).forms[name];
  return (
    form && {
      sheet: form.sheet,
      row: form.header + 1,
      column: Math.min(...Object.values(form.columns).map((column) => column ?? 0)),
      rows: 1,
      columns: 1,
    }
  );
}
