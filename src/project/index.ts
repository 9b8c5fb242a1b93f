export { csvRecords, csvText, guard, ownRecords, unclosedSentence, unguard } from './csv';
export { planCsv } from './plan-csv';
export { BUDGET, HARDWARE_FORM, JOINTS, PARTS, STATUSES, type FormColumn, type SheetForm } from './forms';
export { ALLOWANCES, LOG } from './weight-forms';
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
} from './balance-forms';
export { SURFACES, type SurfaceKey } from './surface-forms';
export { readSurfaces, type SurfaceMeasured, type SurfaceParts, type SurfaceRow, type SurfacesSheet } from './surfaces';
export { findFact, type Fact } from './facts';
export { readSheet, /** @internal */ unitsOfProject } from './project-units';
export type { OwnSystem } from './units';
export type { UseUnits } from './use-units';
export { isoDate } from './problems';
export { NOTHING_RESTS, restingOn, restingSentence, restsOn, type Resting } from './not-recalculated';
export { numberIn, placeOfRow, readForm, type FormRow, type FormSheet } from './rows';
export type { Problem, SheetValues } from './problems';
export {
  currencyOfItems,
  findPrices,
  cellsIn,
  NO_PRICES,
  PRICE_TABLE,
  type PricePlace,
  type ProjectPrices,
} from './prices';
export { summarise, type ComponentSummary, type ProjectSummary } from './summary';
export { formulaIn, NO_SHEETS, projectSheetNames, projectSheetsOf, type ProjectSheets } from './project-sheets';
export { sheetsNamed, ProjectReader, wholeProject, type WorkbookParts, type WantedSheets } from './project-reader';
export { readRowFigures, rowFiguresText } from './row-figures';
export { bySizeSentence, readParts, weighedBySize, type PartRow, type PartsList } from './parts';
export { weightBySize } from './part-weight';
export type { ProjectAllowances } from './allowances';
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
export type { AirplaneSheets } from './airplane-sheets';
export type { Weighing } from './weighing';
export type { CasesSheet, EnvelopeSheet, Loading, SavedCase, StationRow } from './loading';
export { balanceModels, judgedCase, type BalanceModel, type JudgedBalance, type JudgedCase } from './balance-model';
export type { CaseWords } from './case-words';
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
export { BUYING_SHEET, PURCHASES, STOCK, type CuttingFact, type PurchaseKey, type StockSheetKey } from './buying-forms';
export {
  readBuying,
  readPurchases,
  USUAL_CUTTING,
  usualTerms,
  type BuyingSheet,
  type CuttingTerms,
  type PurchaseRow,
  type PurchasesSheet,
} from './buying';
export { askedInFormulas, askingSteps } from './asked';
export { missingRowEdits, nextPartRow } from './rivet-rows';
export { readHardware, type HardwareSheet } from './hardware';
export { readStockSheet, type StockPiece, type StockSheet } from './stock-sheet';
export { hasProject, projectTops } from './has-project';
export { lengthUnitAt } from './length-cells';
export {
  asksWeight,
  csvCells,
  findLists,
  fitSentence,
  GAUGE,
  guessAt,
  guessLists,
  guessMatch,
  headersAt,
  lackingIn,
  lackingLabel,
  lackingOf,
  listTops,
  MATCHES,
  matchedNames,
  matchEdits,
  matchesCsv,
  MEANINGS,
  meaningLabel,
  readMatched,
  readMatches,
  rematch,
  unitChoices,
  type Guess,
  type MatchedList,
  type Means,
  type ReadAs,
  type SheetMatch,
  type WeightReason,
} from './match';
export * from './new';
