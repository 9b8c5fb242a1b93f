export type { Answer, Asked, PackedCell, PackedResult, PackedValue, Request, Results, RowsLeftOut } from './messages';
export { packCell, packValue, unpackResult, unpackValue } from './pack';
export { CalculationService } from './service';
