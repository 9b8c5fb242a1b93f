/** Mutations of the engine by what they do to cells. */
import { RemoveSuperTableMutation, SetDefinedNameMutation, SetSuperTableMutation } from '@univerjs/engine-formula';
import {
  InsertColMutation,
  InsertRowMutation,
  InsertSheetMutation,
  MoveColsMutation,
  MoveRangeMutation,
  MoveRowsMutation,
  RemoveColMutation,
  RemoveRowMutation,
  RemoveSheetMutation,
  ReorderRangeMutation,
  SetRangeValuesMutation,
  SetWorksheetNameMutation,
} from '@univerjs/sheets';
import { OrderRowsMutation } from './sort';

/** What the parameters of a mutation may say of where it happens. */
export interface MutationPlace {
  readonly unitId?: string;
  readonly subUnitId?: string;
  readonly sheet?: { readonly id: string };
  readonly from?: { readonly subUnitId: string };
  readonly to?: { readonly subUnitId: string };
}

/** The sheets that the parameters name. */
export const sheetsOf = ({ subUnitId, sheet, from, to }: MutationPlace): string[] =>
  [...new Set([subUnitId, sheet?.id, from?.subUnitId, to?.subUnitId])].filter((id) => id !== undefined);

/** Cells have other places afterwards. */
export const CELLS_MOVE = new Set<string>([
  InsertRowMutation.id,
  RemoveRowMutation.id,
  InsertColMutation.id,
  RemoveColMutation.id,
  MoveRowsMutation.id,
  MoveColsMutation.id,
  MoveRangeMutation.id,
  ReorderRangeMutation.id,
  OrderRowsMutation.id,
]);

/** A cell's value, formula or place, or what formulas refer to, changes. */
export const CELLS_CHANGE = new Set<string>([
  ...CELLS_MOVE,
  SetRangeValuesMutation.id,
  InsertSheetMutation.id,
  RemoveSheetMutation.id,
  SetWorksheetNameMutation.id,
  SetSuperTableMutation.id,
  RemoveSuperTableMutation.id,
  SetDefinedNameMutation.id,
]);
