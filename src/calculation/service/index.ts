export type {
  Answer,
  Asked,
  PackedCell,
  PackedResult,
  PackedValue,
  Request,
  Results,
  RowPiece,
  RowsLeftOut,
  UnknownInBook,
} from './messages';
export { eachResult, packCell, packedSpill, packValue, rowPieces, unpackCell, unpackResult } from './pack';
export { CalculationService } from './service';
