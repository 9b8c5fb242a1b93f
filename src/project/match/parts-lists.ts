/** The project's lists of parts as one: the sheet Parts, and the sheets whose columns are matched. */
import { sameName } from '../../core/names';
import { PARTS, type FormKey } from '../forms';
import { type FormHead, joined, readForm, readHead, type FormSheet } from '../rows';
import { kept } from '../once';
import type { SheetValues } from '../problems';
import { textIn } from '../../sheet';
import { piecesIn, readAsOfTotal } from './guess';
import { type Cells, saidReadAs } from './meanings';
import { matchedHead, readMatched } from './matched-list';
import { readMatches } from './matches-sheet';

type PartKey = FormKey<typeof PARTS>;

/** The header by which the list is in a system of units: of the sheet Parts, else of the first matched sheet. */
export const partsHead = kept((values: SheetValues): FormHead<PartKey> | undefined => {
  const { matches } = readMatches(values);
  return ownHead(values, matches) ?? (matches[0] && matchedHead(matches[0]));
});

/** A sheet Parts whose columns are matched is read by that, whatever its labels are. */
function ownHead(values: SheetValues, matches: readonly { readonly sheet: string }[]): FormHead<PartKey> | undefined {
  const cells = values(PARTS.sheet);
  return cells && !matches.some(({ sheet }) => sameName(sheet, PARTS.sheet)) ? readPartsHead(cells) : undefined;
}

/**
 * The header of a sheet in the parts list's own form. Weight is of all pieces there: where the label says each piece, or
 * a total adds up for each piece alone, the sheet is a list of another form, and nothing of it is summed in silence.
 */
export function readPartsHead(cells: Cells): FormHead<PartKey> | undefined {
  const head = readHead(PARTS, cells);
  return head && !isOfEachPiece(cells, head) ? head : undefined;
}

/** A long list is asked about many times as it stands. */
const known = new WeakMap<Cells, boolean>();

function isOfEachPiece(cells: Cells, head: FormHead<PartKey>): boolean {
  let is = known.get(cells);
  if (is === undefined) known.set(cells, (is = ofEachPiece(cells, head)));
  return is;
}

function ofEachPiece(cells: Cells, { header, columns }: FormHead<PartKey>): boolean {
  const { weight, each, quantity } = columns;
  if (weight === undefined || each !== undefined) return false;
  if (saidReadAs(textIn(cells[header]![weight])) === 'each piece') return true;
  if (quantity === undefined) return false;
  const named = [columns.component, columns.part].filter((column) => column !== undefined);
  return readAsOfTotal(cells.slice(header + 1), weight, piecesIn(quantity), named) === 'each piece';
}

/** All rows of parts; undefined where there is neither the sheet nor a match. */
export const readPartsLists = kept((values: SheetValues): FormSheet<PartKey> | undefined => {
  const { matches, problems } = readMatches(values);
  const own = ownHead(values, matches) && readForm(PARTS, values(PARTS.sheet)!);
  const matched = matches.map((match) => readMatched(match, values(match.sheet)!));
  const [first, ...others] = [...(own ? [own] : []), ...matched];
  return first && joined<PartKey>(first, others, problems, matched.length > 0);
});
