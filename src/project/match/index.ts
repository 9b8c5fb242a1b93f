export { csvCells, matchesCsv } from './csv-cells';
export { guessAt, guessMatch, rematch, type Guess, type WeightReason } from './guess';
export { asksWeight, findLists, fitSentence, guessLists, lackingIn, listTops } from './lists';
export { headersAt, type Cells, type ColumnMatch, type Header, type SheetMatch } from './match';
export { readMatched, type MatchedList } from './matched-list';
export { matchEdits, matchedNames, readMatches } from './matches-sheet';
export {
  GAUGE,
  lackingLabel,
  lackingOf,
  MATCHES,
  MEANINGS,
  meaningLabel,
  unitChoices,
  type Means,
  type ReadAs,
} from './meanings';
