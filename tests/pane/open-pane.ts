/** A workbook in the embedded engine, and what a view's store is given over it. */
import { onTestFinished } from 'vitest';
import { calculate, loadWorkbook, calculatorHere, startEngine, UniverWorkbook } from '../../src/hosts/univer';
import type { PaneContext } from '../../src/pane/shared/view';
import type { WorkbookModel } from '../../src/sheet';

export async function openPane(model: WorkbookModel, more: Partial<PaneContext> = {}) {
  const engine = startEngine({ calculator: calculatorHere });
  loadWorkbook(engine, model, 'book', 'Book');
  await calculate(engine);
  const workbook = new UniverWorkbook(engine, 'book', 'headless', 'Book');
  const settings = new Map<string, string>();
  const saved: { name: string; text: string }[] = [];
  const pane: PaneContext = {
    workbook,
    settings: { get: (key) => settings.get(key), set: (key, value) => void settings.set(key, value) },
    today: () => '2026-03-31',
    saveFile: (name, text) => void saved.push({ name, text }),
    ...more,
  };
  /** Edits a cell as a person does in the sheet. */
  const type = (sheet: string, row: number, column: number, value: number | string): void =>
    void engine.api.getWorkbook('book')!.getSheetByName(sheet)!.getRange(row, column).setValue(value);
  return { engine, workbook, settings, saved, pane, type, settle: () => calculate(engine) };
}

/** Starts a store, its sheets read; it is stopped when the test is over. */
export async function started<S extends { start(): void; stop(): void; refresh(): Promise<unknown> }>(
  store: S,
): Promise<S> {
  store.start();
  onTestFinished(() => store.stop());
  await store.refresh();
  return store;
}
