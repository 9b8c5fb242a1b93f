/** Which sheets of a workbook look like lists of parts, and what they lack. */
import { sameName } from '../../core/names';
import { HEADER_WITHIN } from '../../core/table';
import { PARTS } from '../forms';
import { isProjectSheet } from '../has-project';
import type { ProjectSheets, WantedSheets } from '../project-reader';
import { listed } from '../units';
import { guessMatch, type Guess } from './guess';
import { lackingLabel, lackingOf, type Cells } from './meanings';

/** The guesses of those sheets that may be lists, in the workbook's order. */
export const guessLists = (sheets: readonly { readonly name: string; readonly cells: Cells }[]): Guess[] =>
  sheets.flatMap(({ name, cells }) => (isProjectSheet(name, cells) ? [] : (guessMatch(name, cells) ?? [])));

/** The same of the sheets of an open workbook that are shown. */
export const findLists = ({ sheets, values }: ProjectSheets): Guess[] =>
  guessLists(
    sheets.flatMap(({ name, visible }) => {
      const cells = visible ? values(name) : undefined;
      return cells ? [{ name, cells: sameName(name, PARTS.sheet) ? cells : cells.slice(0, HEADER_WITHIN) }] : [];
    }),
  );

/** What has to be read for that: the first rows. A sheet Parts is known by its totals, too, which may be at its foot. */
export const listTops: WantedSheets = ({ sheets }) =>
  sheets
    .filter(({ visible }) => visible)
    .map(({ name }) => ({ sheet: name, ...(sameName(name, PARTS.sheet) ? {} : { rows: HEADER_WITHIN }) }));

/** Labels of the parts list that no column is taken for; without an arm there is no balance. */
export function lackingIn({ match }: Pick<Guess, 'match'>): string[] {
  const hasArm = match.columns.some(({ means }) => means === 'arm');
  return [...lackingOf(match.columns), ...(hasArm ? [] : (['arm'] as const))].map(lackingLabel);
}

/** "The sheet Wing has Part, Qty and Weight each, but no column for Arm." */
export function fitSentence(guess: Guess): string {
  const has = listed(
    guess.match.columns.map(({ header }) => header),
    'and',
  );
  const lacks = lackingIn(guess);
  return `The sheet ${guess.match.sheet} has ${has}${lacks.length > 0 ? `, but no column for ${lacks.join(' or ')}` : ''}.`;
}

/** True where nothing says whether weights are of one piece or of all: a person has to. */
export const asksWeight = ({ match }: Pick<Guess, 'match'>): boolean =>
  match.columns.some(({ means, readAs }) => means === 'weight' && readAs === '');
