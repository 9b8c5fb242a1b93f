/** Bringing in a CSV file: read, mapped, looked at, then written as one step of undo. */
import { decodeText } from '../../../sheet';
import { t } from '../../locale';
import { remapped, rowsAsCsv } from '../../shared/csv-import';
import { mapByLabel, planImport, readCsv, type ImportPlan } from './csv';
import { addRows, writeCells } from './price-edits';
import { placeOf, type PricesStore } from './prices-store';

export class ImportDesk {
  constructor(private readonly store: PricesStore) {}

  async open(fileName: string, bytes: Promise<ArrayBuffer>): Promise<void> {
    const { table } = this.store.state;
    if (!table) return;
    try {
      const file = readCsv(decodeText(await bytes));
      this.store.update({
        importing: { fileName, file, mapping: mapByLabel(file.headers, table.columns), update: true },
        report: undefined,
        message: undefined,
      });
    } catch (error) {
      this.store.tell(
        'failed',
        `${t('{file} was not brought in.', { file: fileName })} ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  }

  /** Lets a column of the file fill a place in the table; another column that filled it gives way. */
  map(column: number, place: number | undefined): void {
    const { importing } = this.store.state;
    if (importing)
      this.store.update({ importing: { ...importing, mapping: remapped(importing.mapping, column, place) } });
  }

  setUpdate(update: boolean): void {
    const { importing } = this.store.state;
    if (importing) this.store.update({ importing: { ...importing, update } });
  }

  cancel(): void {
    this.store.update({ importing: undefined });
  }

  closeReport(): void {
    this.store.update({ report: undefined });
  }

  async bringIn(): Promise<void> {
    const { importing } = this.store.state;
    if (!importing) return;
    const { fileName, file, mapping, update } = importing;
    let plan: ImportPlan | undefined;
    const wrong = await this.store.change(t('Import {file}', { file: fileName }), (list, lines) => {
      // Against the list as it is now, which may have changed since it was looked at.
      plan = planImport(file, mapping, list.table.columns, list.places, lines());
      const changed = update ? plan.change : [];
      return [
        ...changed.flatMap(({ id, cells }) => writeCells(list, placeOf(list, id), cells)),
        ...(plan.add.length > 0 ? addRows(list, plan.add) : []),
      ];
    });
    if (wrong !== undefined || !plan) {
      this.store.tell('failed', `${t('Nothing was brought in.')} ${wrong ?? ''}`);
      return;
    }
    const { add, change, same, refused, leftOut } = plan;
    this.store.update({
      importing: undefined,
      report: {
        fileName,
        headers: file.headers,
        added: add.length,
        updated: update ? change.length : 0,
        kept: update ? 0 : change.length,
        same,
        refused,
        leftOut,
      },
    });
  }

  /** The refused rows as a file, with the reason in a last column, so that they can be fixed and brought in again. */
  saveRefused(): void {
    const { report } = this.store.state;
    if (report) this.store.pane.saveFile('prices-refused.csv', rowsAsCsv(report.headers, report.refused));
  }
}
