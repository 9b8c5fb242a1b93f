export { calculate, loadWorkbook, startEngine, type Engine, type EngineOptions } from './engine';
export { functionInfos } from './functions';
export { sheetId } from './snapshot';
export { UniverWorkbook } from './workbook';
