export type { CellChange, SheetChanges, WorkbookChanges } from './changes';
export { difference, type EditedModel } from './difference';
export { XlsxError, type XlsxReason } from './error';
export { patchWorkbook } from './patch';
export { readWorkbook } from './read';
export { writeWorkbook } from './write';
export type { Codec } from './zip';
