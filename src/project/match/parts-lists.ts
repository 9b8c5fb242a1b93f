/** The project's lists of parts as one: the sheet Parts, and the sheets whose columns are matched. */
import { sameName } from '../../core/names';
import { PARTS, type FormHead, type FormKey } from '../forms';
import type { SheetValues } from '../problems';
import { joined, readForm, readHead, type FormSheet } from '../rows';
import { matchedHead, readMatched } from './matched-list';
import { readMatches } from './matches-sheet';

type PartKey = FormKey<typeof PARTS>;

/** The header by which the list is in a system of units: of the sheet Parts, else of the first matched sheet. */
export function partsHead(values: SheetValues): FormHead<PartKey> | undefined {
  const { matches } = readMatches(values);
  return ownHead(values, matches) ?? (matches[0] && matchedHead(matches[0]));
}

/** A sheet Parts whose columns are matched is read by that, whatever its labels are. */
function ownHead(values: SheetValues, matches: readonly { readonly sheet: string }[]): FormHead<PartKey> | undefined {
  const cells = values(PARTS.sheet);
  return cells && !matches.some(({ sheet }) => sameName(sheet, PARTS.sheet)) ? readHead(PARTS, cells) : undefined;
}

/** All rows of parts; undefined where there is neither the sheet nor a match. */
export function readPartsLists(values: SheetValues): FormSheet<PartKey> | undefined {
  const { matches, problems } = readMatches(values);
  const own = ownHead(values, matches) && readForm(PARTS, values(PARTS.sheet)!);
  const matched = matches.map((match) => readMatched(match, values(match.sheet)!));
  const [first, ...others] = [...(own ? [own] : []), ...matched];
  return first && joined<PartKey>(first, others, problems, matched.length > 0);
}
