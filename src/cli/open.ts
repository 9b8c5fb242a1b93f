import { setFlagsFromString } from 'node:v8';
import type { WorkbookModel } from '../sheet';
import { otherVersionText, readWorkbook, XlsxError } from '../xlsx';
import { FileError, checkOutputs, nodeCodec, readBytes } from '../hosts/node/files';
import { EXIT, Stop, shown } from './terminal';

/** Bytes of a file, packed, of which the cells take hundreds of megabytes. */
const LARGE = 2 ** 22;

/**
 * Has the engine collect what is not needed when three quarters have been added to what was, and not when as much
 * again or more was. Measured with a list of 100,000 rows, one formula a column: 840 MB in 4.6 s at its own pace,
 * 595 MB in 4.9 s so; one formula a cell 800 and 765 MB, in the same time. Less than that costs more time.
 * It is a flag of V8 in Node 20, 22 and 24; an engine without it would say so on stderr. @internal
 */
export const COLLECT_SOONER = '--heap-growing-percent=75';

/** A file's bytes and model; Stop with one clear line where it is missing, locked, corrupt or no workbook. */
export const openWorkbook = (path: string): Promise<{ bytes: Uint8Array; model: WorkbookModel }> =>
  refusing(path, async () => {
    const bytes = await readBytes(path);
    if (bytes.length > LARGE) setFlagsFromString(COLLECT_SOONER);
    const model = readWorkbook(bytes, nodeCodec);
    const otherVersion = otherVersionText(bytes, nodeCodec);
    if (otherVersion) process.stderr.write(`${shown(`${path}: ${otherVersion}`)}\n`);
    return { bytes, model };
  });

export const openModel = async (path: string): Promise<WorkbookModel> => (await openWorkbook(path)).model;

/** Runs work on a file; its refusals end the command. */
export async function refusing<T>(path: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof FileError) throw new Stop(EXIT.refused, error.message);
    if (error instanceof XlsxError) throw new Stop(EXIT.refused, `${path}: ${error.message}`);
    throw error;
  }
}

/** Ends the command, before it does any work, where an output is no plain file or one that it reads. */
export const refuseOverwriting = (...[outputs, inputs]: Parameters<typeof checkOutputs>): Promise<void> =>
  refusing('', () => checkOutputs(outputs, inputs));
