/** The forms behind buying: what is on the shelf, what was bought, and the sheet that says how it is bought. */
import { SALE_UNITS } from '../core/price';
import { HARDWARE } from '../core/shopping';
import { form, type FormKey } from './forms';

export const STOCK = form('Stock', 'stock', [
  {
    key: 'name',
    label: 'Name',
    required: true,
    help: 'sheet, bar or leftover; as the price list calls it where it is to come off the shopping list',
  },
  { key: 'material', label: 'Material', help: 'alloy and temper, as in the parts list' },
  { key: 'thickness', label: 'Thickness (in)', help: 'of sheet, or of a wall' },
  { key: 'length', label: 'Length (in)', required: true, help: 'of a sheet: the way its grain runs' },
  { key: 'width', label: 'Width (in)', help: 'of a sheet; none for a bar' },
  {
    key: 'grain',
    label: 'Grain',
    choices: ['along', 'across', 'not known'],
    help: 'how the grain runs to the length; across: the sheet is read the other way round',
  },
  {
    key: 'available',
    label: 'Available',
    help: 'pieces on the shelf or to be had; blank: one of a leftover, else as many as are needed',
  },
  {
    key: 'offcut',
    label: 'Leftover',
    choices: ['yes', 'no'],
    help: 'yes: on the shelf already, spent first and at no cost',
  },
  { key: 'cost', label: 'Cost', help: 'of one' },
  {
    key: 'off',
    label: 'Takes off the list',
    choices: ['yes', 'no'],
    help: 'yes: you had it before this project, so it shortens the shopping list; leave it blank for what is on the sheet Purchases',
  },
  { key: 'note', label: 'Note', help: 'anything else' },
]);
export type StockSheetKey = FormKey<typeof STOCK>;

export const PURCHASES = form('Purchases', 'purchases', [
  { key: 'date', label: 'Date', required: true, help: 'a spreadsheet date, or 2026-03-31' },
  { key: 'supplier', label: 'Supplier', help: 'as the price list calls it' },
  {
    key: 'item',
    label: 'Item',
    required: true,
    help: 'as the price list calls it; anything else counts as spent alone',
  },
  { key: 'units', label: 'Quantity', help: 'in sale units: sheets, pounds, hundreds' },
  { key: 'paid', label: 'Paid', required: true, help: 'for all of it, with freight and tax' },
  { key: 'currency', label: 'Currency', help: 'three letters; blank: your own' },
  { key: 'note', label: 'Note', help: 'anything else' },
  {
    key: 'soldBy',
    label: 'Sold by',
    choices: SALE_UNITS,
    help: 'what one of the quantity is, as in the price list; blank: as the supplier sells it',
  },
]);
export type PurchaseKey = FormKey<typeof PURCHASES>;

/** Three lists side by side on one sheet: each is found by its own labels. */
export const BUYING_SHEET = 'Buying';
export const OWN_CURRENCY = 'Own currency';
/** Labels of what cutting plans go by, each with its value in the cell to the right. */
export const CUTTING_FACTS = {
  kerf: 'Kerf (in)',
  keepFrom: 'Leftovers kept from (in)',
  scrapBelow: 'Cut from scrap up to (in)',
  turn: 'Sheet parts may be turned',
} as const;
export type CuttingFact = keyof typeof CUTTING_FACTS;

export const SPARES_LIST = form(BUYING_SHEET, 'spares', [
  {
    key: 'kind',
    label: 'Kind of hardware',
    required: true,
    choices: HARDWARE,
    help: 'sheet, bar, solid rivet, blind rivet or other',
  },
  { key: 'spares', label: 'Spares (%)', required: true, help: 'bought beyond the need: 15%' },
]);
export const CHARGE_LIST = form(BUYING_SHEET, 'charges of suppliers', [
  { key: 'supplier', label: 'Charges of', required: true, help: 'supplier, as in the price list' },
  { key: 'freight', label: 'Freight', help: 'for one order, own currency' },
  { key: 'cutCharge', label: 'Cut charge', help: 'for one cut, own currency' },
  { key: 'cuts', label: 'Cuts', help: 'that the supplier makes' },
]);
export const RATE_LIST = form(BUYING_SHEET, 'rates of currencies', [
  { key: 'currency', label: 'Other currency', required: true, help: 'three letters' },
  { key: 'rate', label: 'Rate', required: true, help: 'your own currency for one of it' },
  { key: 'date', label: 'Rate of', help: 'day of the rate' },
]);
