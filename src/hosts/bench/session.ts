/** What is open in the bench: opening, restoring, keeping and saving a workbook. */
import { unless } from '../../core/unless';
import type { WorkbookModel } from '../../sheet';
import { otherVersionText, readWorkbook, valuesCopy, writeWorkbook, XlsxError } from '../../xlsx';
import { calculate, closeWorkbook, loadKept, openFile, UniverWorkbook, type Engine } from '../univer';
import { followSelectedCell, uncalculatedText, type SelectedCell } from './cell-words';
import { DiskFile } from './disk-file';
import { ask, hold, Keeping } from './keeping';
import { hasPaper, layPaper, printPaper } from '../../pane/shared/paper';
import { SAMPLES, type Sample } from './samples';
import { SHEET_PAPER, SHEET_PAPER_STYLES, sheetPaper } from './sheet-paper';
import { drawAnew } from './spreadsheet';
import { Storage, type KeptInfo } from './storage';
import { Store } from '../../pane/shared/store';

export type KeptStatus =
  /** Not edited since it was opened. */
  | { readonly how: 'unedited' }
  | { readonly how: 'waiting' }
  | { readonly how: 'kept'; readonly at: number }
  /** Storage is refused, or full. */
  | { readonly how: 'refused'; readonly why: string }
  /** Another tab keeps this workbook. */
  | { readonly how: 'elsewhere' };

export interface SessionState {
  readonly title: string;
  readonly workbook?: UniverWorkbook;
  readonly kept: KeptStatus;
  /** Other workbooks that are kept in this browser. */
  readonly recent: readonly KeptInfo[];
  /** What is under way, in a word. */
  readonly busy?: string;
  /** One message to the person; stays until it is closed or another one comes. */
  readonly notice?: { readonly kind: 'error' | 'warning' | 'done'; readonly text: string };
  readonly selected: SelectedCell;
  /** How many cells show a value that was not recalculated. */
  readonly uncalculated: number;
  /** Why nothing is calculated any more: a fault of the program. */
  readonly fault?: string | undefined;
  /** How much of a long calculation is done, in percent. */
  readonly calculated?: number | undefined;
  /** True where a person has ended a calculation: cells keep their values until one is asked for. */
  readonly isStopped?: boolean;
  /** The file on the disk that Save writes into, where the browser can. */
  readonly savesInto?: string | undefined;
  /** True while the person is asked whether that file is to be replaced. */
  readonly asksToReplace?: boolean;
}

interface Open {
  readonly id: string;
  readonly title: string;
  /** The file that it came from; undefined where that is missing. */
  readonly bytes: Uint8Array | undefined;
  readonly workbook: UniverWorkbook;
  readonly keeping: Keeping | undefined;
  /** Lets another tab have it. */
  readonly letGo: (() => void) | undefined;
  readonly stopFollowing: () => void;
  readonly disk: DiskFile | undefined;
}

interface Showing extends Pick<Open, 'id' | 'title' | 'bytes'>, Partial<Pick<Open, 'disk'>> {
  /** Its id in the engine. */
  readonly unit: string;
  /** Puts the workbook into the engine; true where storage has all of its state already. */
  readonly load: () => Promise<boolean>;
  readonly keptAt?: number | undefined;
}

export class Session extends Store<SessionState> {
  private open: Open | undefined;
  private storage: Storage | undefined;
  private whyNoStorage = '';
  /** Makes the engine's ids of a workbook that is put into it once more. */
  private shown = 0;
  private lastOpening: Promise<void> = Promise.resolve();
  /** What is under way, the newest last. */
  private readonly underWay: string[] = [];
  /** When the first word of the calculation that is under way came. */
  private calculatedSince: number | undefined;
  /** The files that the person has said may be replaced. */
  private readonly agreed = new WeakSet<DiskFile>();

  constructor(
    private readonly engine: Engine,
    private readonly download: (name: string, bytes: Uint8Array) => void,
    /** Called when a workbook is shown and calculated; it is open when that has been done. */
    private readonly shownWorkbook: () => Promise<void>,
  ) {
    super({ title: '', kept: { how: 'unedited' }, recent: [], selected: {}, uncalculated: 0 });
    engine.calculation.onDone(() => {
      const { fault } = engine.calculation;
      this.calculatedSince = undefined;
      this.set({
        uncalculated: this.open?.workbook.uncalculated().length ?? 0,
        fault: fault === undefined ? undefined : describe(fault),
        calculated: undefined,
        isStopped: engine.calculation.isStopped,
      });
    });
    engine.calculation.onProgress(({ done, total }) => {
      this.calculatedSince ??= performance.now();
      // What is over at once is not told of.
      if (performance.now() - this.calculatedSince < UNTOLD) return;
      const calculated = Math.floor((100 * done) / total);
      if (calculated !== this.state.calculated) this.set({ calculated });
    });
  }

  /** Opens what was open last time, else the first sample; a person who asks for a workbook meanwhile gets that one. */
  async start(): Promise<void> {
    await this.opening('Opening', async () => {
      this.storage = await Storage.open().catch((error: unknown) => {
        this.whyNoStorage = describe(error);
        return undefined;
      });
      const current = await this.storage?.current();
      if (current !== undefined && !(await this.restore(current)))
        throw new Error('The workbook that was open last is not kept in this browser any more.');
    });
    if (!this.open) await this.startWithSample(SAMPLES[0]!);
  }

  /** It is loaded before its turn comes: a workbook that a person asks for does not wait for it. */
  private async startWithSample(sample: Sample): Promise<void> {
    const loading = bytesOfSample(sample);
    await loading.catch(() => undefined);
    await this.opening('Opening', async () => {
      if (this.open) return;
      const { notice } = this.state;
      await this.openBytes(await loading, sample.title);
      // Opening the sample must not hide why it is the sample that is shown.
      if (notice)
        this.set({ notice: { ...notice, text: `${notice.text} This is a sample; other workbooks are under Open.` } });
    });
  }

  /** Opens a file that the browser gives as a copy. */
  async openFile(file: File): Promise<void> {
    await this.opening(`Opening ${file.name}`, () => this.read(file));
  }

  /** Opens a file of the disk that can be saved into later. */
  async openHandle(handle: FileSystemFileHandle): Promise<void> {
    await this.opening(`Opening ${handle.name}`, async () => {
      const { disk, file } = await DiskFile.of(handle);
      await this.read(file, disk);
    });
  }

  private async read(file: File, disk?: DiskFile): Promise<void> {
    await this.openBytes(new Uint8Array(await file.arrayBuffer()), file.name.replace(/\.xls[xm]$/i, ''), disk);
  }

  async openSample(sample: Sample): Promise<void> {
    await this.opening(`Opening ${sample.title}`, async () =>
      this.openBytes(await bytesOfSample(sample), sample.title),
    );
  }

  /** Opens a workbook with one sheet and nothing on it. */
  async openEmpty(): Promise<void> {
    await this.opening('Opening', async () =>
      this.openBytes(
        await writeWorkbook({ sheets: [{ name: 'Sheet1', cells: [], tables: [] }], names: [], styles: [] }),
        'airplane',
      ),
    );
  }

  async openKept(id: string): Promise<void> {
    await this.opening('Opening', async () => {
      if (!(await this.restore(id))) throw new Error('This workbook is not kept in this browser any more');
    });
  }

  /** Takes over a workbook that another tab has. */
  async takeOver(): Promise<void> {
    const { open } = this;
    if (!open) return;
    await this.opening('Taking over', async () => {
      await ask(open.id);
      await this.restore(open.id);
    });
  }

  /** Saves where the workbook came from: into its file where the browser can, after asking; else as a download. */
  async save(): Promise<void> {
    const disk = this.open?.disk;
    if (!disk) return this.saveCopy();
    if (!this.agreed.has(disk)) return this.set({ asksToReplace: true, notice: undefined });
    await this.replaceFile(disk);
  }

  /** The answer to the question whether the file on the disk may be replaced. */
  async answerReplace(agrees: boolean): Promise<void> {
    this.set({ asksToReplace: false });
    const disk = this.open?.disk;
    if (!agrees || !disk) return;
    this.agreed.add(disk);
    await this.replaceFile(disk);
  }

  private async replaceFile(disk: DiskFile): Promise<void> {
    await this.saving(
      async (bytes) => {
        await disk.replace(bytes);
        return `Saved in ${disk.name}`;
      },
      // First of all: the browser asks only shortly after a click.
      () => disk.allow(),
    );
  }

  /** Hands the workbook to the person as a file: what it came as, with what was changed in it. */
  async saveCopy(): Promise<void> {
    this.set({ asksToReplace: false });
    await this.saving((bytes, title) => {
      this.download(`${title}.xlsx`, bytes);
      return `Saved as ${title}.xlsx in your downloads`;
    });
  }

  /** Hands the person a copy for those who have no Tarebook. */
  async saveValues(): Promise<void> {
    await this.saving((bytes, title) => {
      const copy = valuesCopy(bytes);
      const name = `${title} values.xlsx`;
      this.download(name, copy.bytes);
      return `Saved as ${name} in your downloads: ${copy.formulas} TARE ${copy.formulas === 1 ? 'formula is a value' : 'formulas are values'} in it`;
    });
  }

  /** Saves the open workbook: `give` puts its file where the person wants it, and says where that is. */
  private async saving(
    give: (bytes: Uint8Array, title: string) => string | Promise<string>,
    before?: () => Promise<void>,
  ): Promise<void> {
    const { open } = this;
    if (!open) return;
    await this.during('Saving', async () => {
      await before?.();
      const { bytes, loaded } = await bytesOf(open);
      const text = await give(bytes, open.title);
      const warnings = [
        ...(loaded ? [] : [WITHOUT_FILE]),
        ...(this.engine.calculation.isStopped ? ['Calculation was stopped: cells in it have older values.'] : []),
      ];
      if (warnings.length > 0) this.tell('warning', [`${text}.`, ...warnings].join(' '));
      else this.tell('done', text);
    });
  }

  /** Prints the sheet in view. */
  print(): void {
    try {
      const paper = this.sheetPaper();
      if (paper === undefined) this.tell('warning', 'There is nothing on this sheet to print.');
      else printPaper(paper, SHEET_PAPER, SHEET_PAPER_STYLES);
    } catch (error) {
      this.tell('error', describe(error));
    }
  }

  /** Lays out the sheet in view for the browser's own print, where nothing else is laid out. */
  layPaper(): void {
    const paper = hasPaper() ? undefined : this.sheetPaper();
    if (paper !== undefined) layPaper(paper, SHEET_PAPER, SHEET_PAPER_STYLES);
  }

  private sheetPaper(): string | undefined {
    const { workbook, title } = this.open ?? {};
    if (!workbook || title === undefined) return undefined;
    const { sheets, styles } = workbook.toModel();
    const sheet = sheets.find(({ name }) => name === workbook.sheetInView);
    return sheet && sheetPaper(sheet, styles, title);
  }

  /** Ends a long calculation: cells keep the values that they have. */
  stopCalculation(): void {
    this.engine.calculation.stop();
  }

  /** Calculates everything, after it was stopped. */
  calculateAll(): void {
    this.engine.calculation.all();
  }

  closeNotice(): void {
    this.set({ notice: undefined });
  }

  private tell(kind: NonNullable<SessionState['notice']>['kind'], text: string): void {
    this.set({ notice: { kind, text } });
  }

  /** Keeps now what waits; for the moment in which the page may go. */
  async flush(): Promise<void> {
    await this.open?.keeping?.flush();
  }

  /** The file that the open workbook came from; undefined where that is missing. */
  get file(): Uint8Array | undefined {
    return this.open?.bytes;
  }

  /** True where closing the page loses edits. */
  get wouldLose(): boolean {
    const { how } = this.state.kept;
    return this.open?.keeping?.waits || (how === 'refused' && (this.open?.workbook.edited ?? false));
  }

  private async openBytes(bytes: Uint8Array, title: string, disk?: DiskFile): Promise<void> {
    const id = crypto.randomUUID();
    await this.show({ id, unit: id, title, bytes, disk, load: () => this.putIn(bytes, id, title) });
    // A person is told once, when a file is opened; the status line goes on saying how many cells there are.
    const uncalculated = this.open?.workbook.uncalculated() ?? [];
    const version = otherVersionText(bytes);
    if (uncalculated.length > 0) this.tell('warning', uncalculatedText(uncalculated));
    else if (version) this.tell('done', version);
    try {
      await this.storage?.add(id, title, bytes);
      await this.listRecent();
    } catch (error) {
      this.set({ kept: { how: 'refused', why: describe(error) } });
    }
  }

  /** Puts a file into the engine; false, for nothing of it is kept but the file. */
  private async putIn(bytes: Uint8Array, id: string, title: string): Promise<boolean> {
    await openFile(this.engine, bytes, { id, title }, (shown) => {
      drawAnew(this.engine, shown);
      // Behind the frame that draws them.
      requestAnimationFrame(() => setTimeout(() => performance.mark('first rows')));
    });
    return false;
  }

  private async restore(id: string): Promise<boolean> {
    const kept = await this.storage?.load(id);
    if (!kept) return false;
    const unit = `${id} ${(this.shown += 1)}`;
    const { head, sheets, bytes, title, keptAt } = kept;
    if (!head && !bytes)
      throw new Error(`What this browser kept of ${title} is damaged: its file and its edits are missing.`);
    const load = async (): Promise<boolean> =>
      head
        ? loadKept(this.engine, { unit, title }, head, sheets, () => drawAnew(this.engine, unit))
        : this.putIn(bytes!, unit, title);
    try {
      await this.show({ id, unit, title, bytes, load, keptAt: head ? keptAt : undefined });
      if (!isFile(bytes))
        this.tell('warning', `${NO_FILE} The cells of ${title} are here; Save makes a new file of them.`);
    } catch (error) {
      if (!head || !bytes) throw error;
      await this.openBytes(bytes, title);
      this.tell(
        'error',
        `The edits of ${title} that are kept in this browser could not be read; this is the file as it was opened. ${describe(error)}`,
      );
      return true;
    }
    await this.storage?.setCurrent(id);
    await this.listRecent();
    return true;
  }

  /** Puts a workbook in the place of the open one, which stays where `load` throws. */
  private async show({ id, unit, title, bytes, load, keptAt, disk }: Showing): Promise<void> {
    const before = this.open;
    await before?.keeping?.flush();
    const isComplete = await load();
    before?.letGo?.();
    const workbook = new UniverWorkbook(this.engine, unit, 'bench', title);
    // Edits that the file cannot take are not made, and the person is told why.
    if (isFile(bytes)) workbook.guard(bytes, (text) => this.tell('warning', text));
    const letGo = this.storage && (await hold(id, () => this.giveAway(id)));
    const keeping =
      this.storage && letGo
        ? new Keeping(this.engine, this.storage, { id, title, unit }, isComplete, this.keepingListener)
        : undefined;
    const stopFollowing = followSelectedCell(workbook, (selected) => this.set({ selected }));
    this.open = { id, title, bytes, workbook, stopFollowing, disk, keeping, letGo };
    this.set({
      title,
      workbook,
      kept: this.keptAtFirst(letGo !== undefined, keptAt),
      notice: undefined,
      selected: {},
      savesInto: disk?.name,
      asksToReplace: false,
    });
    if (before) {
      before.keeping?.stop();
      before.stopFollowing();
      before.workbook.dispose();
      closeWorkbook(this.engine, before.workbook.id);
    }
    await calculate(this.engine);
    performance.mark('calculated');
    // A page that is not looked at draws no frames, and would wait for them.
    await Promise.race([this.shownWorkbook(), new Promise((resolve) => setTimeout(resolve, MOST_SHOWING))]);
  }

  /** Where the edits of a workbook are that is just shown. */
  private keptAtFirst(isOurs: boolean, keptAt: number | undefined): KeptStatus {
    if (!this.storage) return { how: 'refused', why: this.whyNoStorage };
    if (!isOurs) return { how: 'elsewhere' };
    return keptAt === undefined ? { how: 'unedited' } : { how: 'kept', at: keptAt };
  }

  /** Another tab takes the workbook: what waits is kept for it, and nothing more from here. */
  private async giveAway(id: string): Promise<void> {
    const { open } = this;
    if (open?.id !== id) return;
    await open.keeping?.flush();
    open.keeping?.stop();
    this.open = { ...open, keeping: undefined, letGo: undefined };
    this.set({ kept: { how: 'elsewhere' } });
  }

  private async listRecent(): Promise<void> {
    const all = (await this.storage?.list()) ?? [];
    this.set({ recent: all.filter(({ id }) => id !== this.open?.id) });
  }

  private readonly keepingListener = {
    waiting: () => this.set({ kept: { how: 'waiting' } }),
    kept: (at: number) => this.set({ kept: { how: 'kept', at } }),
    refused: (error: unknown) => this.set({ kept: { how: 'refused', why: describe(error) } }),
  };

  /** Openings come one after the other, however long each takes to be read: the one that was asked for last is shown. */
  private opening(busy: string, work: () => Promise<void>): Promise<void> {
    const before = this.lastOpening;
    this.lastOpening = this.during(busy, async () => {
      await before;
      await work();
    });
    return this.lastOpening;
  }

  private async during(busy: string, work: () => Promise<void>): Promise<void> {
    this.underWay.push(busy);
    this.tellUnderWay();
    // Reading a file takes the browser's whole attention: the word is to be seen first.
    await new Promise((resolve) => setTimeout(resolve));
    try {
      await work();
    } catch (error) {
      this.tell('error', describe(error));
    } finally {
      this.underWay.splice(this.underWay.indexOf(busy), 1);
      this.tellUnderWay();
    }
  }

  private tellUnderWay(): void {
    this.set({ busy: this.underWay.at(-1) });
  }
}

async function bytesOfSample({ address }: Sample): Promise<Uint8Array> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address} could not be loaded (${answer.status})`);
  return new Uint8Array(await answer.arrayBuffer());
}

/** Milliseconds of a calculation in which nothing is said of it. */
const UNTOLD = 800;

/** Milliseconds in which a workbook that is open has to be there for the keyboard. */
const MOST_SHOWING = 3000;

const NO_FILE = 'The file that it came from is missing in this browser’s storage, or damaged.';
const WITHOUT_FILE = `${NO_FILE} It has the cells; charts, pictures and comments are not in it.`;

/** The open workbook as a file: what it came as with what was changed in it. `loaded` is undefined where that cannot be read. */
async function bytesOf({
  keeping,
  workbook,
  bytes,
}: Open): Promise<{ readonly bytes: Uint8Array; readonly loaded: WorkbookModel | undefined }> {
  await keeping?.flush();
  await workbook.settled();
  const loaded = bytes && unless(XlsxError, () => readWorkbook(bytes));
  return {
    loaded,
    bytes: bytes && loaded ? workbook.saved(bytes, loaded) : await writeWorkbook(workbook.toModel()),
  };
}

/** Whether there is a file, by its first bytes: reading it takes long, and saving will do it. */
const isFile = (bytes: Uint8Array | undefined): bytes is Uint8Array => bytes?.[0] === 0x50 && bytes[1] === 0x4b;

function describe(error: unknown): string {
  if (error instanceof XlsxError) return error.message;
  if (error instanceof DOMException && error.name === 'QuotaExceededError') return 'The browser’s storage is full';
  return error instanceof Error ? error.message : String(error);
}
