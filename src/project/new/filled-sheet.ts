import type { Edit, RangeAddress } from '../../sheet';

/** What fills one of the project's sheets, and what is to be said of it. */
export interface FilledSheet {
  readonly edits: readonly Edit[];
  readonly exampleRows: number;
  /** The cells to type in, "A6:L205". */
  readonly typed: string;
  /** The first of them. */
  readonly first: RangeAddress;
}

/** Where a list has what other sheets sum: letters of its columns, rows from 1. */
export interface SummedColumns {
  readonly sheet: string;
  readonly first: number;
  readonly last: number;
  readonly component: string;
  readonly weight: string;
  readonly moment: string;
  readonly cost?: string | undefined;
  readonly status?: string | undefined;
}
