/** What a workbook has of the sheets that make it ready: price list, parts, joints, own rivets, hardware and budget. */
import type { SheetInfo, Workbook } from '../../sheet';
import { priceColumn } from '../../core/price';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from '../forms';
import { readForm, type FormSheet } from '../rows';
import { OWN_RIVETS_SHEET, ownRivetsReference } from '../own-rivets';
import { findPrices } from '../prices';

/** The sheets by their forms' names, in the order in which they are added. */
export const PROJECT_SHEETS = ['Prices', 'Parts', 'Joints', 'Rivets', 'Hardware', 'Budget'] as const;
export type ProjectSheetName = (typeof PROJECT_SHEETS)[number];

const FORMS: readonly SheetForm[] = [PARTS, JOINTS, HARDWARE_FORM, BUDGET];

export interface ExistingProject {
  /** All sheets; `empty` is true of those that bear a project sheet's name and hold nothing. */
  readonly sheets: readonly { readonly name: string; readonly empty: boolean }[];
  /** The only sheet of the workbook where it is empty and none of these: the one that a new workbook comes with. */
  readonly blank?: string | undefined;
  /** The sheet of the price table, where there is one. */
  readonly prices: string | undefined;
  /** True where that table says a currency with each price. */
  readonly hasCurrencies?: boolean;
  /** What the joints' formulas call the own rivets: "Rivets[#All]", or their range; undefined where there are none. */
  readonly rivets: string | undefined;
  /** The sheets that have their form's header, by the form's name. */
  readonly forms: Readonly<Partial<Record<string, FormSheet<string>>>>;
}

export const sameName = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Reads what there is; a sheet is the project's by its header, not by its name. */
export async function existingProject(
  workbook: Pick<Workbook, 'sheets' | 'usedRange' | 'read' | 'tables'>,
): Promise<ExistingProject> {
  const [infos, tables] = await Promise.all([workbook.sheets(), workbook.tables()]);
  const forms: Record<string, FormSheet<string>> = {};
  const sheets: { name: string; empty: boolean }[] = [];
  let rivets: string | undefined;
  for (const { name } of infos) {
    const ours = PROJECT_SHEETS.some((own) => sameName(own, name));
    const used = ours ? await workbook.usedRange(name) : undefined;
    sheets.push({ name, empty: ours && used === undefined });
    const form = FORMS.find(({ sheet }) => sameName(sheet, name));
    const found = form && used && readForm(form, await workbook.read(used), name);
    if (used && sameName(name, OWN_RIVETS_SHEET)) rivets = ownRivetsReference(await workbook.read(used), tables);
    if (found) forms[form.sheet] = found;
  }
  const prices = findPrices(
    infos.map(({ name }) => name),
    tables,
  );
  return {
    sheets,
    blank: await onlyBlank(workbook, infos),
    prices: prices?.table?.range.sheet,
    hasCurrencies: isWithCurrencies(prices?.table?.columns ?? []),
    rivets,
    forms,
  };
}

const isWithCurrencies = (columns: readonly string[]): boolean =>
  (['item', 'currency'] as const).every((key) =>
    columns.some((label) => sameName(label.trim(), priceColumn(key).header)),
  );

async function onlyBlank(
  workbook: Pick<Workbook, 'usedRange'>,
  infos: readonly SheetInfo[],
): Promise<string | undefined> {
  const [only] = infos;
  if (!only || infos.length > 1 || only.protected || PROJECT_SHEETS.some((own) => sameName(own, only.name)))
    return undefined;
  return (await workbook.usedRange(only.name)) === undefined ? only.name : undefined;
}
