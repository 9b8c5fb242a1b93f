/**
 * A file on the person's disk that the browser lets the page write into, after asking (File System Access API).
 * Browsers without it hand the page a copy, and a saved workbook is a download.
 */

/** What the library of types does not have yet. Source: WICG, "File System Access". */
interface Handle extends FileSystemFileHandle {
  queryPermission?(how: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(how: { mode: 'readwrite' }): Promise<PermissionState>;
}
interface Picker {
  showOpenFilePicker?(options: object): Promise<readonly FileSystemFileHandle[]>;
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** True where a file is chosen in a way that lets it be saved into. */
export const canPick = (): boolean => typeof (window as Picker).showOpenFilePicker === 'function';

/** Has the person choose a workbook; undefined where they choose none. */
export async function pickFile(): Promise<FileSystemFileHandle | undefined> {
  try {
    const chosen = await (window as Picker).showOpenFilePicker!({
      id: 'workbook',
      types: [{ description: 'Workbook', accept: { [XLSX]: ['.xlsx'] } }],
    });
    return chosen[0];
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
}

/** The handle behind a dropped file, where the browser gives one; to be asked for while the drop is handled. */
export async function droppedHandle(item: DataTransferItem | undefined): Promise<FileSystemFileHandle | undefined> {
  const asked = item as { getAsFileSystemHandle?(): Promise<FileSystemHandle | null> } | undefined;
  const handle = await asked?.getAsFileSystemHandle?.().catch(() => null);
  return handle?.kind === 'file' ? (handle as FileSystemFileHandle) : undefined;
}

/** A file that was opened, and how it was then: what another program writes meanwhile is not written over. */
export class DiskFile {
  private constructor(
    private readonly handle: Handle,
    private known: File,
  ) {}

  static async of(handle: FileSystemFileHandle): Promise<{ readonly disk: DiskFile; readonly file: File }> {
    const file = await handle.getFile();
    return { disk: new DiskFile(handle, file), file };
  }

  get name(): string {
    return this.handle.name;
  }

  /** Asks the person, by the browser's own question; throws where they do not allow it. Only after a click or a key. */
  async allow(): Promise<void> {
    const how = { mode: 'readwrite' } as const;
    const given = (await this.handle.queryPermission?.(how)) ?? 'granted';
    if (given === 'granted' || (await this.handle.requestPermission?.(how)) === 'granted') return;
    throw new Error(`The browser was not allowed to write into ${this.name}. Save a copy instead.`);
  }

  /**
   * Puts bytes in the place of the file's own. The browser writes them beside the file and swaps the two when all is
   * there, so that the file is the old one or the new one, whole.
   */
  async replace(bytes: Uint8Array): Promise<void> {
    await this.mustBeAsItWas();
    const beside = await this.handle.createWritable();
    try {
      await beside.write(bytes as Uint8Array<ArrayBuffer>);
      // Writing takes a while, and another program may have come meanwhile.
      await this.mustBeAsItWas();
    } catch (error) {
      await beside.abort().catch(() => undefined);
      throw error;
    }
    await beside.close();
    const written = await this.now();
    if (written.size !== bytes.length)
      throw new Error(
        `${this.name} has ${written.size} bytes on the disk, not the ${bytes.length} written. Save a copy now.`,
      );
    this.known = written;
  }

  private async mustBeAsItWas(): Promise<void> {
    const { size, lastModified } = await this.now();
    if (size === this.known.size && lastModified === this.known.lastModified) return;
    throw new Error(
      `${this.name} was changed by another program since it was opened here, and is left as it is. Save a copy instead.`,
    );
  }

  private async now(): Promise<File> {
    try {
      return await this.handle.getFile();
    } catch (error) {
      if (error instanceof DOMException && error.name === 'NotFoundError')
        throw new Error(`${this.name} was moved or deleted since it was opened here. Save a copy instead.`);
      throw error;
    }
  }
}
