export { logEdits, logLines, newAllowancesSheet, newLogSheet, type LogLine } from './weight-sheets';
export {
  newAirplaneSheets,
  newCasesSheet,
  newEnvelopeSheet,
  newLoadingSheet,
  newWeighingSheet,
  USUAL_STATIONS,
  type NewAirplane,
  type NewStation,
} from './balance-sheets';
export { caseEdits, clearCaseEdits, loadEdits } from './balance-entries';
export { newSurfacesSheet, type NewSurface } from './surface-sheet';
export { newRivetOptionsSheet } from './rivet-options-sheet';
export { BUYING_COLUMNS, BUYING_FIRST, newBuyingSheet, newPurchasesSheet, newStockSheet } from './buying-sheets';
export { DATE_FORMAT, examplePrices, newPriceList, priceRowLooks, priceTable } from './price-list';
export { existingProject, PROJECT_SHEETS, type ProjectSheetName } from './existing-project';
export { jointsRewrite, type JointsRewrite } from './joints-rewrite';
export { withBudgetChart } from './budget-chart';
export { newRivetsSheet } from './rivets-sheet';
export { newProjectEdits, type AddedSheet, type NewProject } from './new-project';
