/** What a workbook has of the sheets that make it ready: price list, parts, joints, own rivets, hardware and budget. */
import type { Workbook } from '../../sheet';
import { priceColumn } from '../../core/price';
import { BUDGET, HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from '../forms';
import { readForm, type FormSheet } from '../rows';
import { OWN_RIVETS_SHEET, ownRivetsReference } from '../own-rivets';
import { findPrices } from '../prices';
import { sheetsNamed, ProjectReader } from '../project-reader';
import type { ProjectSheets } from '../project-sheets';

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

const isOurs = (name: string): boolean => PROJECT_SHEETS.some((own) => sameSheetName(own, name));

export const sameSheetName = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Reads what there is, all of it anew; a sheet is the project's by its header, not by its name. */
export async function existingProject(workbook: Workbook): Promise<ExistingProject> {
  const there = await ProjectReader.over(workbook).read(
    ({ names }) => (names.length === 1 ? names : sheetsNamed({ names }, ...PROJECT_SHEETS)).map((sheet) => ({ sheet })),
    PROJECT_SHEETS,
  );
  const { names, tables, values } = there;
  const forms: Record<string, FormSheet<string>> = {};
  const sheets: { name: string; empty: boolean }[] = [];
  let rivets: string | undefined;
  for (const name of names) {
    const cells = isOurs(name) ? values(name) : undefined;
    sheets.push({ name, empty: isOurs(name) && cells === undefined });
    const form = FORMS.find(({ sheet }) => sameSheetName(sheet, name));
    const found = form && cells && readForm(form, cells, name);
    if (cells && sameSheetName(name, OWN_RIVETS_SHEET)) rivets = ownRivetsReference(cells, tables);
    if (found) forms[form.sheet] = found;
  }
  const prices = findPrices(names, tables);
  return {
    sheets,
    blank: onlyBlank(there),
    prices: prices?.table?.range.sheet,
    hasCurrencies: isWithCurrencies(prices?.table?.columns ?? []),
    rivets,
    forms,
  };
}

const isWithCurrencies = (columns: readonly string[]): boolean =>
  (['item', 'currency'] as const).every((key) =>
    columns.some((label) => sameSheetName(label.trim(), priceColumn(key).label)),
  );

function onlyBlank({ sheets, values }: ProjectSheets): string | undefined {
  const [only] = sheets;
  return !only || sheets.length > 1 || only.protected || isOurs(only.name) || values(only.name) ? undefined : only.name;
}
