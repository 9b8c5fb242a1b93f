/**
 * Answers a request of Excel's client library: paths to objects, and actions on them, in their order. As in Excel,
 * what came before a failing action has been done, and what comes after it has not.
 */
import { ExcelFault } from '../fake/book';

/** How a path leads to its object. Numbers of the library. */
const PATH = { global: 1, method: 3, property: 4, indexer: 5, reference: 6, nothing: 7 } as const;
const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 } as const;

interface Path {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: { readonly Arguments?: unknown[]; readonly ReferencedObjectPathIds?: unknown };
}

interface Action {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: { readonly Arguments?: unknown[]; readonly ReferencedObjectPathIds?: unknown };
  readonly QueryInfo?: { readonly Select?: readonly string[]; readonly Expand?: readonly string[] };
}

export interface Request {
  readonly Actions: readonly Action[];
  readonly ObjectPaths: Readonly<Record<string, Path>>;
}

export interface Answer {
  readonly Results: readonly { readonly ActionId: number; readonly Value: unknown }[];
  /** The marks in the request that were come by: the library then does what it has put there. */
  readonly TraceIds: readonly number[];
  readonly Error?: {
    readonly Code: string;
    readonly Message: string;
    readonly ActionIndex: number;
    readonly HttpStatusCode: number;
  };
}

/** An object of the workbook, by the names that the library uses in its requests. */
export interface Served {
  /** What can be loaded, by the names that a script uses. */
  readonly values?: Readonly<Record<string, () => unknown>>;
  readonly setters?: Readonly<Record<string, (value: never) => void>>;
  /** Objects that are reached by a property. */
  readonly parts?: Readonly<Record<string, () => Served>>;
  readonly methods?: Readonly<Record<string, (...args: never[]) => unknown>>;
  readonly items?: () => readonly Served[];
  readonly item?: (key: string) => Served;
  /** A name under which the object is found again in later requests, where its path may lead elsewhere by then. */
  readonly reference?: () => string;
}

/** Nothing, as an …OrNullObject gives it. */
export const NOTHING: unique symbol = Symbol('nothing');

const isServed = (value: unknown): value is Served =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const upper = (name: string): string => name[0]!.toUpperCase() + name.slice(1);
const lower = (name: string): string => name[0]!.toLowerCase() + name.slice(1);

/** Objects that later requests may come back to. */
export class Server {
  private readonly kept = new Map<string, Served>();
  /** The events of which the library wants to be told. */
  readonly listening = new Set<string>();

  constructor(private readonly workbook: Served) {}

  answer({ Actions, ObjectPaths }: Request): Answer {
    const found = new Map<number, Served | typeof NOTHING>();
    const reach = (id: number): Served | typeof NOTHING => {
      if (!found.has(id)) found.set(id, this.reachBy(ObjectPaths[id]!, reach));
      return found.get(id)!;
    };
    const results: { ActionId: number; Value: unknown }[] = [];
    const traces: number[] = [];
    for (const [index, action] of Actions.entries()) {
      try {
        if (action.ActionType === ACTION.trace) traces.push(action.Id);
        results.push({ ActionId: action.Id, Value: this.act(action, reach) ?? null });
      } catch (error) {
        if (!(error instanceof ExcelFault)) throw error;
        const { code, message } = error;
        return {
          Results: results,
          TraceIds: traces,
          Error: { Code: code, Message: message, ActionIndex: index, HttpStatusCode: 400 },
        };
      }
    }
    return { Results: results, TraceIds: traces };
  }

  private reachBy(path: Path, reach: (id: number) => Served | typeof NOTHING): Served | typeof NOTHING {
    const { ObjectPathType: type, Name, ParentObjectPathId, ArgumentInfo } = path;
    if (type === PATH.global) return this.workbook;
    if (type === PATH.nothing) return NOTHING;
    if (type === PATH.reference) {
      const kept = this.kept.get(Name);
      if (!kept) throw new ExcelFault('ItemNotFound', 'The object that is referred to is not kept.');
      return kept;
    }
    const parent = reach(ParentObjectPathId!);
    if (parent === NOTHING) return NOTHING;
    const args = argumentsOf(ArgumentInfo, reach);
    if (type === PATH.property) return need(parent.parts?.[lower(Name)], Name)();
    if (type === PATH.indexer) return need(parent.item, 'getItem')(String(args[0]));
    if (type !== PATH.method) throw new Error(`a path of type ${type} is not known here`);
    const given = need(parent.methods?.[lower(Name)], Name)(...(args as never[]));
    return given as Served | typeof NOTHING;
  }

  private act(action: Action, reach: (id: number) => Served | typeof NOTHING): unknown {
    const { ActionType: type, Name, ObjectPathId, ArgumentInfo, QueryInfo } = action;
    if (type === ACTION.trace) return null;
    const object = reach(ObjectPathId);
    if (object === NOTHING) return null;
    switch (type) {
      case ACTION.instantiate:
        return this.identity(object);
      case ACTION.query:
        return queried(object, QueryInfo?.Select ?? []);
      case ACTION.set: {
        const [value] = argumentsOf(ArgumentInfo, reach);
        return void need(object.setters?.[lower(Name)], Name)(value as never);
      }
      case ACTION.method: {
        if (Name.startsWith('_')) return this.keeping(Name);
        return need(object.methods?.[lower(Name)], Name)(...(argumentsOf(ArgumentInfo, reach) as never[]));
      }
      default:
        throw new Error(`an action of type ${type} is not known here`);
    }
  }

  /** What the library asks for itself: to keep objects, and to be told of events. */
  private keeping(name: string): null {
    const [, how, event] = /^_(Register|Unregister)(\w+)$/.exec(name) ?? [];
    if (how === 'Register') this.listening.add(event!);
    if (how === 'Unregister') this.listening.delete(event!);
    return null;
  }

  private identity(object: Served): object {
    const name = object.reference?.();
    if (name === undefined) return {};
    this.kept.set(name, object);
    return { _ReferenceId: name };
  }
}

function argumentsOf(info: Action['ArgumentInfo'], reach: (id: number) => Served | typeof NOTHING): unknown[] {
  const { Arguments: args = [], ReferencedObjectPathIds: referenced } = info ?? {};
  const ids = Array.isArray(referenced) ? (referenced as (number | null)[]) : [];
  return args.map((argument, index) => (ids[index] ? reach(ids[index]) : argument));
}

/** Values of an object by the names that the library wants, or of every item of a collection. */
function queried(object: Served, select: readonly string[]): unknown {
  if (object.items) return { _Items: object.items().map((item) => valuesOf(item, select)) };
  return valuesOf(object, select);
}

function valuesOf(object: Served, select: readonly string[]): Record<string, unknown> {
  const values: Record<string, unknown> = {};
  for (const path of select) {
    const [head, ...rest] = path.replace(/^items\//, '').split('/') as [string, ...string[]];
    if (rest.length === 0) values[upper(head)] = need(object.values?.[head], head)();
    else {
      const part = need(object.parts?.[head], head)();
      if (isServed(part))
        values[upper(head)] = { ...(values[upper(head)] as object), ...valuesOf(part, [rest.join('/')]) };
    }
  }
  return values;
}

/** What the stand-in does not have is a fault of the stand-in, not of Excel. */
function need<T>(found: T | undefined, name: string): T {
  if (found === undefined) throw new Error(`the stand-in for Excel has no ${name}`);
  return found;
}
