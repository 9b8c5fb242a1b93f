/**
 * Objects of Office.js as a script sees them: properties are there only after load and sync, and nothing
 * happens before a sync. The states of a property (not loaded, not synced, there) are office-addin-mock's.
 */
import { OfficeMockObject } from 'office-addin-mock';
import { ExcelFault, type FakeBook } from './book';

const UNREADABLE = new Set(['Error, property was not loaded', 'Error, context.sync() was not called']);

/** Counts what is asked of Excel. */
export interface Traffic {
  /** Requests: syncs that had something to do. */
  syncs: number;
}

export class FakeContext {
  private queue: (() => void)[] = [];
  private loaded = new Set<OfficeMockObject>();

  constructor(
    readonly book: FakeBook,
    private readonly traffic: Traffic,
    private readonly onWritten: (sheets: readonly string[]) => void,
  ) {}

  readonly written = new Set<string>();
  workbook: unknown;
  onSelected: () => void = () => undefined;

  enqueue(action: () => void): void {
    this.queue.push(action);
  }

  reveal(mock: OfficeMockObject): void {
    this.loaded.add(mock);
  }

  readonly sync = async (): Promise<void> => {
    if (this.queue.length === 0) return;
    this.traffic.syncs++;
    const queue = this.queue;
    this.queue = [];
    const loaded = (this.loaded = new Set());
    await Promise.resolve();
    try {
      // As in Excel, what came before a failing action has been done, and what comes after it has not.
      for (let next = 0; next < queue.length; next++) {
        queue[next]!();
        // What an action itself asks for (the items of a collection) belongs to the same request.
        queue.splice(next + 1, 0, ...this.queue.splice(0));
      }
    } finally {
      if (this.written.size > 0) this.onWritten([...this.written]);
      this.written.clear();
    }
    for (const mock of loaded) await mock.sync();
    await new Promise((resolve) => setImmediate(resolve));
  };
}

type Values = Record<string, unknown>;

/** Base of all objects: `properties` are those that can be loaded, children those that are reached by a path. */
export abstract class ClientObject {
  readonly context: FakeContext;
  protected readonly mock: OfficeMockObject;

  constructor(context: FakeContext, properties: readonly string[]) {
    this.context = context;
    this.mock = new OfficeMockObject(Object.fromEntries([...properties, 'isNullObject'].map((name) => [name, name])));
    return new Proxy(this, {
      get: (target, name, receiver) => {
        if (typeof name === 'symbol' || name in target) return Reflect.get(target, name, receiver) as unknown;
        const value = (this.mock as unknown as Values)[name];
        if (name === 'then') return undefined;
        if (value === undefined) throw new TypeError(`${target.constructor.name} has no ${name}`);
        if (typeof value === 'string' && UNREADABLE.has(value))
          throw new ExcelFault('PropertyNotLoaded', `${target.constructor.name}.${name}: ${value}`);
        return value === NONE ? undefined : value;
      },
      set: (target, name, value: unknown) => {
        const own = String(name);
        if (own in target) return Reflect.set(target, name, value);
        context.enqueue(() => target.write(own, value));
        return true;
      },
    });
  }

  /** The value of a property as it is now; throws Excel's error where the object is not there. */
  protected abstract read(name: string): unknown;

  /** Sets a property. */
  protected write(name: string, _value: unknown): void {
    throw new ExcelFault('InvalidArgument', `${this.constructor.name}.${name} cannot be set`);
  }

  /** True where an …OrNullObject found nothing. */
  protected isNull(): boolean {
    return false;
  }

  load(paths: string): this {
    for (const path of paths.split(',').map((one) => one.trim())) {
      const [head, ...rest] = path.split('/');
      if (rest.length > 0) (this as unknown as Record<string, ClientObject>)[head!]!.load(rest.join('/'));
      else {
        this.mock.load(path);
        this.context.enqueue(() => this.answer(path));
      }
    }
    return this;
  }

  private answer(name: string): void {
    const isNull = this.isNull();
    const values: Values = { isNullObject: isNull, ...(isNull ? {} : { [name]: this.read(name) ?? NONE }) };
    for (const [key, value] of Object.entries(values)) {
      (this.mock as unknown as { setValue(name: string, value: unknown): void }).setValue(key, value);
      this.mock.load(key);
    }
    this.context.reveal(this.mock);
  }
}

/** office-addin-mock cannot tell a value of undefined or null from one that is not there. */
const NONE = Symbol('none');

/** A collection: `items` are there after a load of "items/…" and a sync. */
export abstract class Collection<T extends ClientObject> {
  private found: T[] | undefined;

  constructor(readonly context: FakeContext) {}

  protected abstract list(): T[];

  get items(): T[] {
    if (!this.found) throw new ExcelFault('PropertyNotLoaded', `${this.constructor.name}.items was not loaded`);
    return this.found;
  }

  load(paths: string): this {
    const inner = paths.split(',').map((path) => {
      const [head, ...rest] = path.trim().split('/');
      if (head !== 'items' || rest.length === 0)
        throw new ExcelFault('InvalidArgument', `a collection is loaded by "items/…", not by ${path}`);
      return rest.join('/');
    });
    // Asked for in the same request, and answered with it.
    this.context.enqueue(() => {
      const items = this.list();
      for (const item of items) for (const path of inner) item.load(path);
      this.found = items;
    });
    return this;
  }
}

/** A number or text that a method gives after the sync. */
export class ClientResult<T> {
  private answer: { value: T } | undefined;

  constructor(context: FakeContext, read: () => T) {
    context.enqueue(() => (this.answer = { value: read() }));
  }

  get value(): T {
    if (!this.answer) throw new ExcelFault('ValueNotLoaded', 'The value of the result object has not been loaded yet.');
    return this.answer.value;
  }
}
