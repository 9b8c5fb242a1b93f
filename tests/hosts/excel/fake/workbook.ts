/** The workbook with its collections, and the events that it gives. */
import { parseRange } from '../../../../src/sheet';
import { ExcelFault, type FakeBook, type FakeSheet } from './book';
import { ClientObject, ClientResult, Collection, type FakeContext } from './client-object';
import { Range, Table, Worksheet } from './objects';

/** Handlers of one kind of event. */
export class EventHandlers {
  readonly active = new Set<(event: unknown) => unknown>();

  /** As Excel's: on and off with the next sync. */
  at(context: FakeContext) {
    return {
      add: (handler: (event: unknown) => unknown) => {
        context.enqueue(() => this.active.add(handler));
        return { context, remove: () => context.enqueue(() => this.active.delete(handler)) };
      },
    };
  }
}

export interface Events {
  readonly changed: EventHandlers;
  readonly calculated: EventHandlers;
  readonly selected: EventHandlers;
}

class Tables extends Collection<Table> {
  protected list(): Table[] {
    return this.context.book.tables.map((table) => new Table(this.context, () => table));
  }
  getCount(): ClientResult<number> {
    return new ClientResult(this.context, () => this.context.book.tables.length);
  }
  getItem(name: string): Table {
    return new Table(this.context, () => this.context.book.table(name));
  }
  getItemAt(index: number): Table {
    return new Table(this.context, () => {
      const table = this.context.book.tables[index];
      if (!table) throw new ExcelFault(this.context.book.noSuchTable);
      return table;
    });
  }
}

class Worksheets extends Collection<Worksheet> {
  constructor(
    context: FakeContext,
    private readonly events: Events,
  ) {
    super(context);
  }
  protected list(): Worksheet[] {
    return this.context.book.sheets.map((sheet) => new Worksheet(this.context, () => sheet));
  }
  getItem(name: string): Worksheet {
    return new Worksheet(this.context, () => this.context.book.sheet(name));
  }
  getItemOrNullObject(name: string): Worksheet {
    const found = () => this.context.book.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    return new Worksheet(this.context, () => found() as FakeSheet);
  }
  add(name: string): Worksheet {
    this.context.enqueue(() => this.context.book.addSheet(name));
    return this.getItem(name);
  }
  get onChanged() {
    return this.events.changed.at(this.context);
  }
  get onCalculated() {
    return this.events.calculated.at(this.context);
  }
}

class NamedItem extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly find: () => FakeBook['names'][number],
  ) {
    super(context, ['name', 'formula']);
  }
  protected read(property: string): unknown {
    const { name, refersTo } = this.find();
    return property === 'formula' ? `=${refersTo}` : name;
  }
  getRange(): Range {
    return new Range(this.context, () => {
      const [sheet, address] = this.find().refersTo.split('!') as [string, string];
      return { sheet: this.context.book.sheet(sheet), place: parseRange(address.replaceAll('$', ''), sheet)! };
    });
  }
}

class Names extends Collection<NamedItem> {
  protected list(): NamedItem[] {
    return this.context.book.names.map((item) => new NamedItem(this.context, () => item));
  }
  getItem(name: string): NamedItem {
    return new NamedItem(this.context, () => {
      const found = this.context.book.names.find((item) => item.name.toLowerCase() === name.toLowerCase());
      if (!found) throw new ExcelFault('ItemNotFound');
      return found;
    });
  }
}

/** What a function of the workbook gave. */
class FunctionResult extends ClientObject {
  constructor(
    context: FakeContext,
    private readonly result: number,
  ) {
    super(context, ['value']);
  }
  protected read(): unknown {
    return this.result;
  }
}

export class Workbook extends ClientObject {
  readonly worksheets: Worksheets;
  readonly tables: Tables;
  readonly names: Names;
  /** Days of the system that the workbook counts in. */
  readonly functions = {
    date: (): FunctionResult => new FunctionResult(this.context, this.context.book.dates1904 ? 1 : 1463),
  };

  constructor(
    context: FakeContext,
    private readonly events: Events,
  ) {
    super(context, ['name']);
    this.worksheets = new Worksheets(context, events);
    this.tables = new Tables(context);
    this.names = new Names(context);
  }
  protected read(): unknown {
    return this.context.book.name;
  }
  getSelectedRange(): Range {
    return new Range(this.context, () => {
      const { selection } = this.context.book;
      if (!selection) throw new ExcelFault('InvalidSelection', 'The current selection is invalid for this operation.');
      return selection;
    });
  }
  get onSelectionChanged() {
    return this.events.selected.at(this.context);
  }
}
