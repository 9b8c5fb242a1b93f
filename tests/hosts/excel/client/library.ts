/**
 * The client library of Excel on the web as Microsoft publishes it (@microsoft/office-js, excel-web-16.00.js): its
 * Excel.run, load and sync, its checks of arguments and of requirement sets. Its requests are answered by a session
 * of ours instead of Excel.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import type { Answer, Request } from './requests';

const PACKAGE = dirname(createRequire(import.meta.url).resolve('@microsoft/office-js/package.json'));

/** Where the library thinks that it runs. */
const ADDRESS = 'http://page.test/?_host_Info=Excel$Web$16.01$en-US$$$$0';

/** What answers the library's requests. */
export interface Session {
  answer(request: Request): Answer;
  /** Where a handler of the selection is put, and taken away. */
  selectionHandlers: Set<(event: unknown) => void>;
}

interface Extension {
  readonly CommonUtility: { _doApiNotSupportedCheck: boolean };
  readonly SessionBase: { new (): object; _overrideSession: object | undefined };
  readonly GenericEventRegistration: { s_genericEventRegistrations: Record<string, unknown> };
  _testSetRichApiMessageReadyImpl(ready: () => Promise<void>): void;
  _testTriggerRichApiMessageEvent(message: object): void;
}

export interface Client {
  readonly Excel: { run(...args: unknown[]): Promise<unknown> };
  readonly OfficeExtension: Extension;
}

/** The names of Excel's events in the messages of the library. */
export const EVENTS = { changed: 10, calculated: 16 } as const;
const EVENT_MESSAGE = 65_536;
const OF_WORKBOOK = 'Workbook';

/** Just enough of a page that the library can be read: what it does there is not what is looked at. */
function pageOf(): Record<string, unknown> {
  const kept = new Map<string, string>();
  const storage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
    key: () => null,
    length: 0,
  };
  const element = () => ({ setAttribute: () => {}, appendChild: () => {}, style: {}, getElementsByTagName: () => [] });
  const location = new URL(ADDRESS);
  const document = {
    getElementsByTagName: () => [],
    createElement: element,
    head: element(),
    body: element(),
    documentElement: element(),
    addEventListener: () => {},
    cookie: '',
    URL: ADDRESS,
    location,
    readyState: 'complete',
    referrer: '',
  };
  const page: Record<string, unknown> = {
    document,
    location,
    navigator: { userAgent: 'Mozilla/5.0 Chrome/120' },
    sessionStorage: storage,
    localStorage: storage,
    addEventListener: () => {},
    removeEventListener: () => {},
    postMessage: () => {},
    setTimeout,
    clearTimeout,
    performance,
    Error,
    Promise,
    name: '',
  };
  return Object.assign(page, { window: page, self: page, parent: page, top: page });
}

let read: { client: Client; page: Record<string, unknown> } | undefined;

/** The library, read once; `supports` says what requirement sets this Excel has. */
export function client(supports: (set: string, version: string) => boolean): Client {
  if (!read) {
    const page = pageOf();
    const code = readFileSync(join(PACKAGE, 'dist', 'excel-web-16.00.js'), 'utf8');
    // In a context of its own, whose global object is the page; errors are of the kind that the add-in knows.
    createContext(page);
    runInContext(code, page, { filename: 'excel-web-16.00.js' });
    read = { page, client: page as unknown as Client };
    // The library switches its check of requirement sets on in a class that inherits the switch, and reads it in the
    // one above, where it stays off.
    read.client.OfficeExtension.CommonUtility._doApiNotSupportedCheck = true;
  }
  read.page.Office = { context: { requirements: { isSetSupported: supports } } };
  return read.client;
}

/** Has a session answer from now on; nobody listens any more to what the one before told. */
export function answerBy({ OfficeExtension }: Client, session: Session): void {
  const { selectionHandlers } = session;
  class Answering extends OfficeExtension.SessionBase {
    _resolveRequestUrlAndHeaderInfo(): Promise<object> {
      return Promise.resolve({ url: ADDRESS, headers: {} });
    }
    _createRequestExecutorOrNull(): object {
      return {
        executeAsync: async (_data: unknown, _flags: number, { Body }: { Body: Request }) => {
          await Promise.resolve();
          // As over the wire: what is answered shares no object with what was asked.
          const asked = JSON.parse(JSON.stringify(Body)) as Request;
          return { ErrorCode: '', ErrorMessage: '', Headers: {}, Body: session.answer(asked) };
        },
      };
    }
    getEventRegistration(): object {
      type Handler = (event: unknown) => void;
      return {
        register: async (_id: number, _target: string, handler: Handler) => void selectionHandlers.add(handler),
        unregister: async (_id: number, _target: string, handler: Handler) => void selectionHandlers.delete(handler),
      };
    }
  }
  OfficeExtension.GenericEventRegistration.s_genericEventRegistrations = {};
  OfficeExtension._testSetRichApiMessageReadyImpl(() => Promise.resolve());
  OfficeExtension.SessionBase._overrideSession = new Answering();
}

/** Tells the library of an event of the sheets, as Excel does. */
export function tell({ OfficeExtension }: Client, event: keyof typeof EVENTS, details: object): void {
  OfficeExtension._testTriggerRichApiMessageEvent({
    entries: [
      {
        messageCategory: EVENT_MESSAGE,
        messageType: EVENTS[event],
        targetId: OF_WORKBOOK,
        message: JSON.stringify(details),
      },
    ],
  });
}
