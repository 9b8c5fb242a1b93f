/** Workbooks kept in the browser's own storage: the file's bytes as they came, and the state of every sheet. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

/** A kept workbook, without its contents. */
export interface KeptInfo {
  readonly id: string;
  readonly title: string;
  /** Milliseconds since 1970. */
  readonly keptAt: number;
}

export interface KeptWorkbook extends KeptInfo {
  readonly bytes: Uint8Array;
  /** Empty where the workbook was not edited yet. */
  readonly head: string;
  readonly sheets: ReadonlyMap<string, string>;
}

export interface KeptChange {
  readonly id: string;
  readonly title: string;
  readonly head: string;
  /** The sheets that changed; those that are not in `order` any more go. */
  readonly sheets: ReadonlyMap<string, string>;
  readonly order: readonly string[];
}

interface Schema extends DBSchema {
  workbooks: { key: string; value: KeptInfo & { head: string; order: readonly string[] } };
  files: { key: string; value: Uint8Array };
  sheets: { key: [workbook: string, sheet: string]; value: string };
  state: { key: string; value: string };
}

const MOST_KEPT = 12;
const CURRENT = 'current';

export class Storage {
  private constructor(private readonly db: IDBPDatabase<Schema>) {}

  /** Throws where the browser refuses storage. */
  static async open(name = 'tarebook-bench'): Promise<Storage> {
    const db = await openDB<Schema>(name, 1, {
      upgrade(database) {
        for (const store of ['workbooks', 'files', 'sheets', 'state'] as const) database.createObjectStore(store);
      },
      // Another tab wants a newer form: give way, so that it does not wait for ever.
      blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
    });
    return new Storage(db);
  }

  /** Kept workbooks, the last one first. */
  async list(): Promise<KeptInfo[]> {
    const all = await this.db.getAll('workbooks');
    return all.map(({ id, title, keptAt }) => ({ id, title, keptAt })).sort((a, b) => b.keptAt - a.keptAt);
  }

  async current(): Promise<string | undefined> {
    return this.db.get('state', CURRENT);
  }

  async load(id: string): Promise<KeptWorkbook | undefined> {
    const transaction = this.db.transaction(['workbooks', 'files', 'sheets']);
    const [info, bytes] = await Promise.all([
      transaction.objectStore('workbooks').get(id),
      transaction.objectStore('files').get(id),
    ]);
    if (!info || !bytes) return undefined;
    const sheets = await Promise.all(
      info.order.map(
        async (sheet) => [sheet, (await transaction.objectStore('sheets').get([id, sheet])) ?? ''] as const,
      ),
    );
    return { id, title: info.title, keptAt: info.keptAt, head: info.head, bytes, sheets: new Map(sheets) };
  }

  /** Keeps the bytes of a workbook that was opened, and makes it the current one; the oldest kept ones go. */
  async add(id: string, title: string, bytes: Uint8Array): Promise<void> {
    const transaction = this.db.transaction(['workbooks', 'files', 'sheets', 'state'], 'readwrite');
    const workbooks = transaction.objectStore('workbooks');
    await transaction.objectStore('files').put(bytes, id);
    await workbooks.put({ id, title, keptAt: Date.now(), head: '', order: [] }, id);
    await transaction.objectStore('state').put(id, CURRENT);
    const kept = (await workbooks.getAll()).sort((a, b) => b.keptAt - a.keptAt);
    for (const old of kept.slice(MOST_KEPT)) {
      await workbooks.delete(old.id);
      await transaction.objectStore('files').delete(old.id);
      await transaction.objectStore('sheets').delete(sheetsOf(old.id));
    }
    await transaction.done;
  }

  async setCurrent(id: string): Promise<void> {
    await this.db.put('state', id, CURRENT);
  }

  /** Keeps an edited workbook's state: all of the change, or nothing of it. */
  async keep({ id, title, head, sheets, order }: KeptChange): Promise<void> {
    const transaction = this.db.transaction(['workbooks', 'sheets'], 'readwrite');
    await transaction.objectStore('workbooks').put({ id, title, keptAt: Date.now(), head, order }, id);
    const texts = transaction.objectStore('sheets');
    for (const [sheet, text] of sheets) await texts.put(text, [id, sheet]);
    for (const key of await texts.getAllKeys(sheetsOf(id))) if (!order.includes(key[1])) await texts.delete(key);
    await transaction.done;
  }

  close(): void {
    this.db.close();
  }
}

const sheetsOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, ''], [id, '\uffff']);
