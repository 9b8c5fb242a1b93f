export { calculate, loadWorkbook, registerTable, startEngine, type Engine, type EngineOptions } from './engine';
export { functionInfos } from './functions';
export { ErrorMessages } from './messages';
export { sheetId, toSnapshot } from './snapshot';
