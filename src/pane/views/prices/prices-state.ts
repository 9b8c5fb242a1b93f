/** What the view shows, as one value. */
import type { UnitSystem } from '../../../core/quantity';
import type { TableModel, RangeAddress } from '../../../sheet';
import { AS_IN_SHEET, type Arrangement } from './arrange';
import type { CsvFile } from '../../shared/csv-file';
import type { PriceDraft } from './price-draft';
import type { Mapping } from '../../shared/column-mapping';
import type { Message } from '../../shared/transaction';
import type { Refused } from './import-plan';
import type { Places, PriceLine } from './lines';
import { OLD_AFTER_DEFAULT } from './quote-age';

/** A range that reads as a price list but is no table yet. */
export interface ListCandidate {
  readonly range: RangeAddress;
  readonly columns: readonly string[];
}

export interface ImportState {
  readonly fileName: string;
  readonly file: CsvFile;
  readonly mapping: Mapping;
  readonly update: boolean;
}

export interface ImportReport {
  readonly fileName: string;
  readonly headers: readonly string[];
  readonly added: number;
  readonly updated: number;
  readonly kept: number;
  readonly same: number;
  readonly refused: readonly Refused[];
  readonly leftOut: readonly string[];
}

export interface PricesState {
  /** 'absent': no table; 'lacking': a table without a column that is needed; 'failed': it could not be read. */
  readonly status: 'reading' | 'absent' | 'lacking' | 'failed' | 'ready';
  /** What to fix where the list cannot be shown. */
  readonly mend?: string | undefined;
  readonly candidate?: ListCandidate;
  readonly table?: TableModel;
  /** System in which the workbook counts what is used; unit prices are shown in it. */
  readonly units: UnitSystem;
  readonly places: Places;
  readonly lines: readonly PriceLine[];
  readonly drafts: ReadonlyMap<number, PriceDraft>;
  /** The row that is being added. */
  readonly adding?: PriceDraft;
  readonly arrangement: Arrangement;
  readonly oldAfter: number;
  readonly message?: Message | undefined;
  /** What the list was just made with; shown until it is put away. */
  readonly added?: string;
  readonly importing?: ImportState;
  readonly report?: ImportReport;
}

export const NOTHING_READ: PricesState = {
  status: 'reading',
  units: 'in-lb',
  places: new Map(),
  lines: [],
  drafts: new Map(),
  arrangement: AS_IN_SHEET,
  oldAfter: OLD_AFTER_DEFAULT,
};
