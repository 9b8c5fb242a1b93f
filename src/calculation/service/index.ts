export type {
  Answer,
  Asked,
  PackedCell,
  PackedResult,
  PackedValue,
  Request,
  Results,
  RowsLeftOut,
  UnknownInBook,
} from './messages';
export { packCell, packValue, unpackCell, unpackResult, unpackValue } from './pack';
export { CalculationService } from './service';
