/** What a row of a list comes to, in one line: the columns that say it may be out of sight while the row is typed. */
import { CellError, isBlank, textIn, type Cell, type Workbook } from '../sheet';
import { HARDWARE_FORM, JOINTS, PARTS, type SheetForm } from './forms';
import { headOf } from './project-units';
import { sheetsNamed, ProjectReader, type WantedSheets } from './project-reader';
import { HEADER_WITHIN } from '../core/table';

export interface RowFigures {
  /** What the row is about. */
  readonly name: string;
  readonly figures: readonly RowFigure[];
}

interface RowFigure {
  readonly label: string;
  /** A number in the unit, a text, or the code of an error. */
  readonly value: number | string;
  /** Decimals of a number. */
  readonly places: number;
  readonly unit?: string | undefined;
}

/** "Cap strip: Weight 0.285 lb · Moment 21.25 lb·in" */
export function rowFiguresText(
  { name, figures }: RowFigures,
  write: (value: number, places: number) => string = (value, places) => value.toFixed(places),
): string {
  const parts = figures.map(({ label, value, places, unit }) =>
    [label, typeof value === 'number' ? write(value, places) : value, unit].filter(Boolean).join(' '),
  );
  return `${name}: ${parts.join(' · ')}`;
}

const LISTS: readonly { readonly form: SheetForm; readonly name: string; readonly figures: readonly string[] }[] = [
  { form: PARTS, name: 'part', figures: ['weight', 'moment', 'cost'] },
  { form: JOINTS, name: 'joint', figures: ['count', 'rivet', 'weight', 'check'] },
  { form: HARDWARE_FORM, name: 'item', figures: ['weight', 'moment', 'cost'] },
];

/** What a row comes to; undefined on another sheet, above the list, and for a row that comes to nothing yet. */
export async function readRowFigures(workbook: Workbook, sheet: string, row: number): Promise<RowFigures | undefined> {
  const list = LISTS.find(({ form }) => form.sheet.toLowerCase() === sheet.toLowerCase());
  if (!list) return undefined;
  const top: WantedSheets = ({ names }) =>
    sheetsNamed({ names }, sheet).map((name) => ({ sheet: name, rows: HEADER_WITHIN }));
  const { values } = await ProjectReader.over(workbook).latest(top);
  const head = headOf(values, list.form, sheet);
  if (!head || row <= head.header) return undefined;
  const { columns } = head;
  const last = Math.max(...[list.name, ...list.figures].map((key) => columns[key] ?? 0));
  const cells = (await workbook.read({ sheet, row, column: 0, rows: 1, columns: last + 1 }))[0]!;
  const figures = list.figures.flatMap((key): RowFigure[] => {
    const at = columns[key];
    const value = at === undefined ? undefined : shownIn(cells[at]);
    const { label } = list.form.columns.find((column) => column.key === key)!;
    if (value === undefined) return [];
    const unit = typeof value === 'number' ? head.units[key]?.sign : undefined;
    return [{ label: label.replace(/\s*\(.*\)$/, ''), value, places: placesOf(key, value), unit }];
  });
  const name = textIn(cells[columns[list.name] ?? -1]);
  return figures.length > 0 && name !== '' ? { name, figures } : undefined;
}

/** How many decimals a number is shown with: as many as make four digits; two for money, none for pieces. */
function placesOf(key: string, value: number | string): number {
  if (key === 'cost') return 2;
  if (key === 'count' || typeof value === 'string' || value === 0) return 0;
  return Math.min(4, Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value)))));
}

function shownIn(cell: Cell | undefined): number | string | undefined {
  if (cell instanceof CellError) return cell.code;
  return isBlank(cell) || typeof cell === 'boolean' ? undefined : cell;
}
