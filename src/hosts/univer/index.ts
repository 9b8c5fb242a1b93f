export { calculate, closeWorkbook, loadWorkbook, startEngine, type Engine, type EngineOptions } from './engine';
export { fitFrozen } from './freeze';
export { headText, loadKept, sheetIds, sheetText, watchEdits } from './kept';
export { NOT_SAVED } from './not-saved';
export { toPixels, USUAL_WIDTH } from './snapshot';
export { injectorOf } from './internals';
export { numberStyleAt, pastedLength } from './typed-cells';
export { UniverWorkbook, type UncalculatedCell } from './workbook';
