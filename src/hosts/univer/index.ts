export { calculate, closeWorkbook, loadWorkbook, startEngine, type Engine, type EngineOptions } from './engine';
export { functionInfos } from './functions';
export { headText, loadKept, sheetIds, sheetText, watchEdits } from './kept';
export { sheetId } from './snapshot';
export { unknownFormulas } from './unknown-formulas';
export { UniverWorkbook } from './workbook';
