/** Making a workbook ready, or adding one of its sheets, as one step. */
import type { UnitSystem } from '../../../core/quantity';
import { existingProject, newProjectEdits, ProjectReader, type ProjectSheetName } from '../../../project';
import { WorkbookError, type RangeAddress, type Workbook } from '../../../sheet';
import { t } from '../../locale';
import type { PaneContext } from '../../shared/view';
import type { Made } from './start-store';

/** What would be added to the workbook, as edits, and what left as it is. */
const plan = async (
  { workbook, today }: PaneContext,
  wish: Pick<Parameters<typeof newProjectEdits>[0], 'units' | 'examples' | 'only'>,
) => newProjectEdits({ ...wish, today: today(), existing: await existingProject(workbook) });

/** Adds what is missing; throws where the workbook refuses, and then nothing is added. */
export async function makeReady(pane: PaneContext, units: UnitSystem, examples: boolean): Promise<Made> {
  const { workbook } = pane;
  const { edits, added, left } = await plan(pane, { units, examples });
  if (edits.length > 0) await workbook.apply(t('Make this workbook ready'), edits);
  // The person goes on in the parts list. A host that cannot show a place has added the sheets all the same.
  const first = added.find(({ name }) => name === 'Parts')?.first;
  if (first) await workbook.select(first).catch(() => undefined);
  return { added, left };
}

/** What would be added, and what left as it is. */
export const foreseen = (pane: PaneContext): Promise<Made> => plan(pane, { units: 'in-lb', examples: false });

/** Adds one sheet without examples, in the workbook's own units, and the price list for its costs where the workbook has none. */
export async function addProjectSheet(pane: PaneContext, name: ProjectSheetName): Promise<void> {
  const { workbook } = pane;
  const { units } = await ProjectReader.over(workbook).read(() => []);
  const { edits, left } = await plan(pane, { units, examples: false, only: [name] });
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
