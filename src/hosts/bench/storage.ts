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
  /** undefined where the file is missing, or is none. */
  readonly bytes: Uint8Array | undefined;
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

  /** Kept workbooks, the last one first; records that say nothing are passed over. */
  async list(): Promise<KeptInfo[]> {
    return infosIn(await this.db.getAll('workbooks'));
  }

  /** The workbook that was open last. */
  async current(): Promise<string | undefined> {
    const found: unknown = await this.db.get('state', CURRENT);
    if (found !== undefined && typeof found !== 'string')
      throw new Error('What this browser kept of the workbook that was open last could not be read.');
    return found;
  }

  /** What there is of a workbook: some of it may be missing. undefined where nothing is kept of it. */
  async load(id: string): Promise<KeptWorkbook | undefined> {
    const transaction = this.db.transaction(['workbooks', 'files', 'sheets']);
    const texts = transaction.objectStore('sheets');
    const [record, bytes, keys] = await Promise.all([
      transaction.objectStore('workbooks').get(id) as Promise<unknown>,
      transaction.objectStore('files').get(id) as Promise<unknown>,
      texts.getAllKeys(sheetsOf(id)),
    ]);
    const file = bytes instanceof Uint8Array && bytes.length > 0 ? bytes : undefined;
    if (record === undefined && !file) return undefined;
    // The sheets themselves say which there are: a list of them beside them can be missing.
    const sheets = await Promise.all(keys.map(async (key) => [key[1], String((await texts.get(key)) ?? '')] as const));
    const { title, keptAt } = infoIn(record) ?? { title: 'workbook', keptAt: 0 };
    const { head } = (record ?? {}) as { head?: unknown };
    return { id, title, keptAt, head: typeof head === 'string' ? head : '', bytes: file, sheets: new Map(sheets) };
  }

  /** Keeps the bytes of a workbook that was opened, and makes it the current one; the oldest kept ones go. */
  async add(id: string, title: string, bytes: Uint8Array): Promise<void> {
    const transaction = this.db.transaction(['workbooks', 'files', 'sheets', 'state'], 'readwrite');
    const workbooks = transaction.objectStore('workbooks');
    await transaction.objectStore('files').put(bytes, id);
    await workbooks.put({ id, title, keptAt: Date.now(), head: '', order: [] }, id);
    await transaction.objectStore('state').put(id, CURRENT);
    for (const old of infosIn(await workbooks.getAll()).slice(MOST_KEPT)) {
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
}

/** What records say of their workbooks, the last kept one first. */
const infosIn = (records: readonly unknown[]): KeptInfo[] =>
  records.flatMap((record) => infoIn(record) ?? []).sort((a, b) => b.keptAt - a.keptAt);

/** What a record says of its workbook; undefined where it is none. */
function infoIn(record: unknown): KeptInfo | undefined {
  const { id, title, keptAt } = (record ?? {}) as Partial<Record<keyof KeptInfo, unknown>>;
  if (typeof id !== 'string') return undefined;
  return {
    id,
    title: typeof title === 'string' ? title : 'workbook',
    keptAt: typeof keptAt === 'number' ? keptAt : 0,
  };
}

const sheetsOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, ''], [id, '\uffff']);
