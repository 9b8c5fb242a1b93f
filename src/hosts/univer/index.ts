export { calculate, closeWorkbook, loadWorkbook, startEngine, type Engine, type EngineOptions } from './engine';
export { headText, loadKept, sheetIds, sheetText, watchEdits } from './kept';
export { unknownFormulas } from './unknown-formulas';
export { UniverWorkbook } from './workbook';
