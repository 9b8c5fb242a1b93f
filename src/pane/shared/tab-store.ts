/**
 * The state of a tab, and everything that it asks of the workbook: the sheets are read when the tab starts and when
 * they have changed while it is in view, and changes are made one after the other, each as a step of undo. And how a
 * component has such a store.
 */
import { createContext, useContext, useEffect, useState, type KeyboardEvent } from 'react';
import { ProjectReader, type ProjectSheets, type WantedSheets } from '../../project';
import { sheetOfEdit, type Edit, type RangeAddress, type Workbook } from '../../sheet';
import { mark, t, type Marked } from '../locale';
import { pageTurn } from './page-turn';
import { refusal } from './refusal';
import { OnceMore, Store, useStore } from './store';
import type { PaneContext } from './view';

/** What the last step did, or why it was refused. */
export interface Message {
  readonly tone: 'done' | 'failed';
  readonly text: string;
  /** True where one undo takes the step back. */
  readonly undoable?: boolean | undefined;
}

/** A step of undo. */
export interface Transaction {
  /** What it is called among the workbook's steps. */
  readonly label: string;
  /** What it writes; a function makes it when its turn has come, of the sheets as they then are. */
  readonly edits: readonly Edit[] | ((now: ProjectSheets) => readonly Edit[] | Promise<readonly Edit[]>);
  /** Sheets by whose places such a function goes: they are read anew before it. */
  readonly anew?: readonly string[];
  /** What is shown at once, as if it were written already. Without it the change is shown when the workbook has made it. */
  readonly shown?: ProjectSheets;
  /** Called when it is in the workbook, before the sheets are read again. */
  readonly written?: () => void;
  /** What is said when it is done. */
  readonly said?: string | (() => string | undefined) | undefined;
}

export interface TabState {
  readonly status: string;
  /** Why the sheets could not be read, and what to do. */
  readonly mend?: string | undefined;
  readonly message?: Message | undefined;
}

export abstract class TabStore<S extends TabState> extends Store<S> {
  protected readonly workbook: Workbook;
  protected readonly project: ProjectReader;
  private readonly reading = new OnceMore(() => this.readAndSay());
  private inView = true;
  /** True where something has changed that the tab has not read. */
  private due = false;
  private unsubscribe: (() => void) | undefined;
  private turn: Promise<unknown> = Promise.resolve();
  /** Changes on their way that are shown already: what is read before they are in would take them off the screen again. */
  private ahead = 0;

  constructor(
    readonly pane: PaneContext,
    state: S,
  ) {
    super(state);
    this.workbook = pane.workbook;
    this.project = ProjectReader.over(pane.workbook);
  }

  // Reading

  start(): void {
    this.unsubscribe = this.workbook.onChange(({ sheets }) => {
      if (this.concerns(sheets)) this.readWhenSeen();
    });
    this.readWhenSeen();
  }

  stop(): void {
    this.unsubscribe?.();
  }

  /** Says whether the tab is in view: out of it nothing is read. */
  bringUp(inView: boolean): void {
    this.inView = inView;
    if (inView && this.due) this.readWhenSeen();
  }

  private readWhenSeen(): void {
    this.due = !this.inView;
    if (this.inView) void this.refresh();
  }

  /** Reads the sheets; calls that come while they are being read are met by one more reading. */
  refresh(): Promise<void> {
    return this.reading.run();
  }

  /** Reads all sheets, whatever was told of their changes. */
  readAgain(): Promise<void> {
    this.project.touch();
    return this.refresh();
  }

  /** True where what is being read has changed meanwhile and is read once more. */
  protected get outdated(): boolean {
    return this.reading.outdated;
  }

  /** What is said where it cannot be read. */
  protected readonly unread: Marked = mark('The sheets could not be read.');

  /** What the tab shows of the workbook. */
  protected abstract readonly wanted: WantedSheets;

  /** True where a change of these sheets can change what the tab shows. */
  protected concerns(sheets: readonly string[]): boolean {
    return this.project.concerns(this.wanted, sheets);
  }

  /** Shows the sheets as they were read, or as they will be. */
  protected abstract show(sheets: ProjectSheets): void | Promise<void>;

  /** Reads once, and shows what was read. */
  protected async readOnce(): Promise<void> {
    const sheets = await this.project.read(this.wanted);
    if (this.ahead === 0) await this.show(sheets);
  }

  private async readAndSay(): Promise<void> {
    this.due = false;
    try {
      await this.readOnce();
    } catch (error) {
      this.patch({ status: 'failed', mend: `${t(this.unread)} ${refusal(error)}` });
    }
  }

  // Changing

  /** Makes a change; gives why it was refused, for whoever says so in its own place. */
  protected async transact({ label, edits, anew, shown, written, said }: Transaction): Promise<string | undefined> {
    if (Array.isArray(edits) && edits.length === 0) return undefined;
    const touched = shown ? this.project.show(shown) : [];
    if (shown) {
      this.ahead += 1;
      void this.show(shown);
    }
    let wrote = false;
    const wrong = await this.inTurn(async () => {
      try {
        // What was typed is on the screen before a busy workbook takes its time.
        if (shown) await pageTurn();
        const made = typeof edits === 'function' ? await edits(await this.project.read(this.wanted, anew)) : edits;
        wrote = made.length > 0;
        if (wrote) await this.workbook.apply(label, made);
        this.project.touch(sheetsChangedBy(made, this.project.now.tables));
        written?.();
      } finally {
        if (shown) {
          this.ahead -= 1;
          this.project.touch(touched);
        }
      }
    });
    const text = wrong === undefined ? (typeof said === 'function' ? said() : said) : undefined;
    if (text !== undefined) this.tell('done', text, wrote);
    return wrong;
  }

  /** The same, and says why it was refused. */
  protected async make(transaction: Transaction): Promise<string | undefined> {
    this.say(undefined);
    const wrong = await this.transact(transaction);
    if (wrong !== undefined) this.tell('failed', wrong);
    return wrong;
  }

  async undo(): Promise<void> {
    await this.goBack('undo', t('Undone.'), t('Nothing to undo.'));
  }

  async redo(): Promise<void> {
    await this.goBack('redo', t('Done again.'), t('Nothing to redo.'));
  }

  private async goBack(which: 'undo' | 'redo', done: string, none: string): Promise<void> {
    let made = false;
    const wrong = await this.inTurn(async () => {
      made = await this.workbook[which]();
      this.project.touch();
    });
    this.tell(wrong === undefined ? 'done' : 'failed', wrong ?? (made ? done : none));
  }

  /** Shows a place of the workbook. */
  async select(range: RangeAddress, said?: string): Promise<void> {
    try {
      await this.workbook.select(range);
      this.say(said === undefined ? undefined : { tone: 'done', text: said });
    } catch (error) {
      this.tell('failed', refusal(error));
    }
  }

  /** Does one thing after the other, each followed by a reading; gives why it was refused, if it was. */
  protected inTurn(work: () => Promise<void>): Promise<string | undefined> {
    const run = async (): Promise<string | undefined> => {
      const wrong = await work().then(() => undefined, refusal);
      await this.refresh();
      return wrong;
    };
    const next = this.turn.then(run, run);
    this.turn = next;
    return next;
  }

  // Telling

  tell(tone: Message['tone'], text: string, undoable = false): void {
    this.say({ tone, text, ...(undoable ? { undoable } : {}) });
  }

  protected say(message: Message | undefined): void {
    if (message || this.state.message) this.patch({ message });
  }

  private patch(change: Partial<TabState>): void {
    this.set(change as Partial<S>);
  }
}

/** The sheets that edits change; undefined where that cannot be told by the edits alone. */
function sheetsChangedBy(edits: readonly Edit[], tables: ProjectSheets['tables']): string[] | undefined {
  const sheets = edits.map((edit) =>
    sheetOfEdit(edit, (table) => tables.find(({ name }) => name === table)?.range.sheet),
  );
  return sheets.every((sheet) => sheet !== undefined) ? [...new Set(sheets)] : undefined;
}

// In a component

/** False in a tab that another one hides. */
export const InView = createContext(true);

/** The store of a tab, made once and running as long as the tab is there, and its state. */
export function useTab<S extends TabState, T extends TabStore<S>>(make: () => T & TabStore<S>): readonly [T, S] {
  const [store] = useState(make);
  const inView = useContext(InView);
  useEffect(() => store.bringUp(inView), [store, inView]);
  useEffect(() => {
    store.start();
    return () => store.stop();
  }, [store]);
  return [store, useStore(store)];
}

/** Ctrl+Z, Ctrl+Y and Ctrl+Shift+Z (⌘ on a Mac) for a view, except where a text is being typed: there they are the field's own. */
export const undoKeys =
  (store: Pick<TabStore<TabState>, 'undo' | 'redo'>) =>
  (event: KeyboardEvent): void => {
    if (
      !(event.ctrlKey || event.metaKey) ||
      event.altKey ||
      (event.target as HTMLElement).matches('input, textarea, select')
    )
      return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) void store.undo();
    else if (key === 'y' || (key === 'z' && event.shiftKey)) void store.redo();
    else return;
    event.preventDefault();
  };
