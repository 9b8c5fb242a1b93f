export { csvRecords, csvText, guard, ownRecords, unclosedSentence, unguard } from './csv';
export { planCsv } from './plan-csv';
export {
  BUDGET,
  HARDWARE_FORM,
  JOINTS,
  PARTS,
  STATUSES,
  type FormColumn,
  type SheetForm,
  ALLOWANCES,
  LOG,
  SURFACES,
  type SurfaceKey,
  BUYING_SHEET,
  PURCHASES,
  STOCK,
  type CuttingFact,
  type PurchaseKey,
  type StockSheetKey,
} from './forms';
export {
  CASES,
  CORRECTIONS,
  ENVELOPE,
  ENVELOPE_SOURCE,
  GEARS,
  LOADING,
  WEIGHING,
  WEIGHING_FACTS,
  type WeighingFact,
  type AirplaneSheets,
} from './balance-forms';
export { readSurfaces, type SurfaceMeasured, type SurfaceParts, type SurfaceRow, type SurfacesSheet } from './surfaces';
export { findFact, type Fact } from './facts';
export { readSheet, /** @internal */ unitsOfProject } from './project-units';
export type { OwnSystem } from './units';
export { bySizeSentence, readParts, weighedBySize, type PartRow, type PartsList, type UseUnits } from './parts';
export { weightBySize } from './part-weight';
export { isoDate, type Problem, type SheetValues } from './reading';
export { NOTHING_RESTS, restingOn, restingSentence, restsOn, type Resting } from './not-recalculated';
export { numberIn, placeOfRow, readForm, type FormRow, type FormSheet } from './rows';
export {
  currencyOfItems,
  findPrices,
  cellsIn,
  NO_PRICES,
  PRICE_TABLE,
  type PricePlace,
  type ProjectPrices,
} from './prices';
export { addCost, summarise, type ComponentSummary, type ProjectSummary } from './summary';
export {
  formulaIn,
  NO_SHEETS,
  ProjectReader,
  projectSheetNames,
  projectSheetsOf,
  sheetsNamed,
  wholeProject,
  type ProjectSheets,
  type WantedSheets,
  type WorkbookParts,
} from './project-reader';
export { readRowFigures, rowFiguresText } from './row-figures';
export type { ProjectAllowances } from './components';
export { logOf, movedSince, type LogEntry, type Moved, type WeightLog } from './log';
export {
  WEIGHTS_STEPS,
  weightsModel,
  withBias,
  type BiasedWeight,
  type ComponentWeights,
  type HeavyPart,
  type WeighedDifference,
  type WeightsModel,
} from './weights-model';
export type { Weighing } from './weighing';
export type { CasesSheet, EnvelopeSheet, Loading, SavedCase, StationRow } from './loading';
export {
  balanceModels,
  judgedCase,
  type BalanceModel,
  type JudgedBalance,
  type JudgedCase,
  type CaseWords,
} from './balance-model';
export {
  ACCESS_LABEL,
  COUNT_RULES,
  ONE_SIDE,
  OPTION_LIST,
  RIVET_FACTS,
  RIVET_JOINTS,
  RIVET_OPTIONS_SHEET,
  SHEAR_LIST,
  TOOL_LIST,
  type RivetFact,
} from './rivet-options-forms';
export {
  OWN_RIVETS_SHEET,
  ownRivetsReference,
  pricedRivets,
  readOwnRivetSheet,
  type OwnRivetSheet,
} from './own-rivets';
export {
  exceptionAt,
  namedRivet,
  readRivetJoints,
  readRivetOptions,
  rivetOptions,
  usualOptions,
  USUAL_OPTIONS,
  type Exception,
  type NamedKind,
  type RivetJoint,
  type RivetJoints,
  type RivetOptionsSheet,
} from './rivet-options';
export {
  readBuying,
  readPurchases,
  USUAL_CUTTING,
  usualTerms,
  type BuyingSheet,
  type CuttingTerms,
  type PurchaseRow,
  type PurchasesSheet,
  readStockSheet,
  type StockPiece,
  type StockSheet,
} from './buying';
export { askedInFormulas, askingSteps } from './asked';
export { missingRowEdits, nextPartRow } from './rivet-rows';
export { readHardware, type HardwareSheet } from './hardware';
export { hasProject, projectTops } from './has-project';
export { asksWeight, findLists, fitSentence, guessLists, lackingIn, listTops } from './match/lists';
export { lengthUnitAt } from './length-cells';
export { csvCells, matchesCsv } from './match/csv-cells';
export {
  GAUGE,
  headersAt,
  lackingLabel,
  lackingOf,
  MATCHES,
  MEANINGS,
  meaningLabel,
  unitChoices,
  type Means,
  type ReadAs,
  type SheetMatch,
} from './match/meanings';
export { guessAt, guessMatch, rematch, type Guess, type WeightReason } from './match/guess';
export { matchedNames, matchEdits, readMatches } from './match/matches-sheet';
export { piecesOf, readMatched, type MatchedList } from './match/parts-lists';
export { logEdits, logLines, newAllowancesSheet, newLogSheet, type LogLine } from './new/weight-sheets';
export {
  newAirplaneSheets,
  newCasesSheet,
  newEnvelopeSheet,
  newLoadingSheet,
  newWeighingSheet,
  USUAL_STATIONS,
  type NewAirplane,
  type NewStation,
  caseEdits,
  clearCaseEdits,
  loadEdits,
} from './new/balance-sheets';
export { newSurfacesSheet, type NewSurface } from './new/surface-sheet';
export { newRivetOptionsSheet } from './new/rivet-options-sheet';
export { BUYING_COLUMNS, BUYING_FIRST, newBuyingSheet, newPurchasesSheet, newStockSheet } from './new/buying-sheets';
export { DATE_FORMAT, examplePrices, newPriceList, priceRowLooks, priceTable } from './new/price-list';
export {
  existingProject,
  PROJECT_SHEETS,
  type ProjectSheetName,
  newProjectEdits,
  type AddedSheet,
  type NewProject,
} from './new/new-project';
export { jointsRewrite, type JointsRewrite } from './new/joints-rewrite';
export { withBudgetChart } from './new/budget-chart';
export { newRivetsSheet } from './new/joints-sheet';
