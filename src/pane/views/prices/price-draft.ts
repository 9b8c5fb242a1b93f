/** What is being typed for one row, kept apart from the sheet until it is right and saved. */
import {
  PRICE_COLUMNS,
  validatePriceRow,
  type PriceCell,
  type PriceColumnKey,
  type PriceRow,
} from '../../../core/price';
import { withoutRow } from '../../../core/table';
import { isBlank, isFormula, type CellInput } from '../../../sheet';
import { t } from '../../locale';
import { fieldText, readField, typedPrice, unreadField } from './fields';
import { cellOf, lineFormula, priceCell, type Places, type PriceLine, type RowProblems } from './lines';

export interface PriceDraft {
  /** True where the whole row is open as a form, false where one cell is edited in the grid. */
  readonly form: boolean;
  readonly texts: Texts;
  /** What the fields showed when the typing began. */
  readonly base: Texts;
  /** Fields whose problems are shown: those that were left, or all after an attempt to save. */
  readonly shown: ReadonlySet<PriceColumnKey>;
  /** Why the workbook refused the row. */
  readonly refused?: string;
  /** Problems with other rows, found on saving. */
  readonly clash?: RowProblems;
}

export type Texts = Readonly<Partial<Record<PriceColumnKey, string>>>;

export const lineTexts = (line: PriceLine, places: Places): Record<PriceColumnKey, string> =>
  Object.fromEntries(
    PRICE_COLUMNS.map(({ key }) => [key, fieldText(key, cellOf(line, places, key), lineFormula(line, places, key))]),
  ) as Record<PriceColumnKey, string>;

/** The field that is edited in the grid; undefined for a form. */
export const cellKey = (draft: PriceDraft): PriceColumnKey | undefined =>
  draft.form ? undefined : (Object.keys(draft.texts)[0] as PriceColumnKey | undefined);

/** Fields whose text is not what it was. */
export const changedKeys = (draft: PriceDraft): PriceColumnKey[] =>
  PRICE_COLUMNS.map(({ key }) => key).filter(
    (key) => draft.texts[key] !== undefined && draft.texts[key] !== (draft.base[key] ?? ''),
  );

/** The row as it would be: changed fields from the draft, the others from the sheet as it is now. */
export function draftCells(
  draft: PriceDraft,
  line: PriceLine | undefined,
  places: Places,
): Map<PriceColumnKey, CellInput> {
  const changed = new Set(changedKeys(draft));
  return new Map(
    PRICE_COLUMNS.map(({ key }) => {
      const now = line && !changed.has(key) ? cellOf(line, places, key) : undefined;
      if (key === 'currency' && isBlank(now ?? draft.texts.currency)) return [key, currencyTyped(draft) ?? now ?? null];
      return [key, now === undefined ? readField(key, draft.texts[key] ?? '') : now];
    }),
  );
}

/** The currency that the sign of a typed price stands for, where it stands for one alone. */
function currencyTyped({ texts }: PriceDraft): string | undefined {
  const { currencies } = typedPrice(texts.price ?? '');
  return currencies?.length === 1 ? currencies[0] : undefined;
}

/** Why a price's sign and its row's currency cannot both be right. */
function otherCurrency(typed: string, currency: PriceCell): string | undefined {
  const { sign, currencies } = typedPrice(typed);
  if (typeof currency !== 'string' || currency.trim() === '' || !currencies) return undefined;
  return currencies.includes(currency.trim().toUpperCase())
    ? undefined
    : t('The price is in {sign}, and the currency is {currency}. Change one of them.', { sign: sign!, currency });
}

/** The draft's row, where it can be read, and what is wrong with its fields. */
export function checkDraft(
  draft: PriceDraft,
  line: PriceLine | undefined,
  places: Places,
): {
  readonly row: PriceRow | undefined;
  readonly problems: RowProblems;
  /** Fields whose problem is told in the pane's language; the check of a row speaks English. */
  readonly unread: ReadonlySet<PriceColumnKey>;
} {
  const raw = Object.fromEntries(
    [...draftCells(draft, line, places)].map(([key, input]) => [key, priceCell(plainCell(input))]),
  );
  const checked = validatePriceRow(raw);
  const unread = new Map(
    (line ? changedKeys(draft) : PRICE_COLUMNS.map((column) => column.key)).flatMap((key) => {
      const typed = draft.texts[key] ?? '';
      const why = unreadField(key, typed) ?? (key === 'price' ? otherCurrency(typed, raw['currency']) : undefined);
      return why === undefined ? [] : [[key, why] as const];
    }),
  );
  const problems = new Map<PriceColumnKey, string>([...(draft.clash ?? []), ...unread]);
  if (!checked) problems.set('item', withoutRow(validatePriceRow({ note: 'x' })!.problems[0]!.message));
  for (const { column, message } of checked?.problems ?? [])
    if (!problems.has(column)) problems.set(column, withoutRow(message));
  const own = cellKey(draft);
  // A cell answers for itself: what it makes wrong elsewhere is shown there, once it is in.
  if (own) for (const key of [...problems.keys()]) if (key !== own) problems.delete(key);
  return { row: unread.size > 0 ? undefined : checked?.row, problems, unread: new Set(unread.keys()) };
}

/** A formula's value is not known before the workbook has it: it passes as a number that every field takes. */
const UNKNOWN = 1;

/** What an input is as far as that is known; undefined, which is no input, stays that. */
export const plainCell = <I extends CellInput | undefined>(
  input: I,
): Exclude<I, { readonly formula: string }> | typeof UNKNOWN =>
  input !== undefined && isFormula(input) ? UNKNOWN : (input as Exclude<I, { readonly formula: string }>);

/** What is said of a field that is being typed in, where the sheet says something else meanwhile. */
export function sheetSays(draft: PriceDraft, line: PriceLine, places: Places, key: PriceColumnKey): string | undefined {
  const now = fieldText(key, cellOf(line, places, key), lineFormula(line, places, key));
  const base = draft.base[key];
  if (base === undefined || now === base || now === draft.texts[key]) return undefined;
  return now === ''
    ? t('The cell is blank in the sheet now; saving keeps yours.')
    : t('The sheet now says {now}; saving keeps yours.', { now });
}
