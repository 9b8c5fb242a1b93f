export { XlsxError, type XlsxReason } from './error';
export { readWorkbook, sheetNames } from './read';
