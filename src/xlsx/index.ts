export type { CellChange, SheetChanges, WorkbookChanges } from './changes';
export { difference, sameCell, type EditedModel } from './difference';
export { XlsxError, type XlsxReason } from './error';
export { functionNames, isDynamic, namesOtherFile } from './formula-text';
export { patchWorkbook } from './patch';
export { readWorkbook } from './read';
export { writeWorkbook } from './write';
export type { Codec } from './zip';
