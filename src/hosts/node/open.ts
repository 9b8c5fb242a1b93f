/** A workbook file behind the Workbook port, with no program that shows it. */
import type { Workbook } from '../../sheet';
import { difference, patchWorkbook, readWorkbook } from '../../xlsx';
import { calculate, calculatorHere, closeWorkbook, loadWorkbook, startEngine, UniverWorkbook } from '../univer';
import { nodeCodec } from './files';

export interface HeadlessWorkbook {
  readonly workbook: Workbook;
  /** The file with all that was changed, calculated; every part that was not changed is as it came. */
  save(): Promise<Uint8Array>;
  close(): void;
}

/** The engine keeps values by workbook in one place for the whole process: an id that came again would see old ones. */
let opened = 0;

/** Opens a file's bytes and calculates it. Throws XlsxError. */
export async function openHeadless(bytes: Uint8Array, title: string): Promise<HeadlessWorkbook> {
  const model = readWorkbook(bytes, nodeCodec);
  const engine = startEngine({ calculator: calculatorHere });
  const id = `headless-${(opened += 1)}`;
  loadWorkbook(engine, model, id, title);
  const workbook = new UniverWorkbook(engine, id, 'headless', title);
  await calculate(engine);
  return {
    workbook,
    save: async () => {
      // Edits start a calculation and do not wait for it.
      await calculate(engine);
      return patchWorkbook(bytes, difference(model, workbook.toModel(model)), nodeCodec);
    },
    close: () => {
      workbook.dispose();
      closeWorkbook(engine, id);
    },
  };
}
