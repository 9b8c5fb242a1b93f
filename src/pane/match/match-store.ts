/** Lists of the workbook that are not of Tarebook's form, and the one whose columns are being matched. */
import {
  csvCells,
  findLists,
  guessAt,
  guessMatch,
  headersAt,
  listTops,
  MATCHES,
  matchEdits,
  sheetsNamed,
  readMatches,
  rematch,
  type Guess,
  type Means,
  type ProjectSheets,
  type ReadAs,
  type SheetMatch,
  type WantedSheets,
  type WeightReason,
} from '../../project';
import { decodeText, freeSheetName, type Cell } from '../../sheet';
import { t } from '../locale';
import { refusal } from '../shared/refusal';
import { TabStore, type TabState } from '../shared/tab-store';
import type { PaneContext } from '../shared/view';

export interface MatchDraft {
  readonly match: SheetMatch;
  /** Cells of the whole sheet. */
  readonly cells: readonly (readonly Cell[])[];
  /** Headers of all its columns. */
  readonly headers: readonly string[];
  readonly weightBy: WeightReason;
  /** Other sheets with the same headers. */
  readonly alike: readonly string[];
  readonly withAlike: boolean;
}

export interface MatchState extends TabState {
  /** Lists that are not matched yet. */
  readonly lists: readonly Guess[];
  readonly matched: readonly SheetMatch[];
  readonly draft?: MatchDraft | undefined;
  readonly wrong?: string | undefined;
  /** True where the person asked for what is shown: the focus goes to its heading, or back to where it came from. */
  readonly asked: boolean;
}

export class MatchStore extends TabStore<MatchState> {
  constructor(pane: PaneContext) {
    super(pane, { status: 'reading', lists: [], matched: [], asked: false });
  }

  /** The first rows of every sheet, since any may be a list, and the lists that are matched whole. */
  protected readonly wanted: WantedSheets = (there) => [
    ...listTops(there),
    ...there.matched.map((sheet) => ({ sheet })),
    ...(this.state.draft ? sheetsNamed(there, this.state.draft.match.sheet).map((sheet) => ({ sheet })) : []),
  ];

  /** Any sheet may become a list. */
  protected override concerns(): boolean {
    return true;
  }

  protected show(sheets: ProjectSheets): void {
    // A match that fits its sheet no more is offered anew.
    const { matches } = readMatches(sheets.values);
    const matched = new Set(matches.map(({ sheet }) => sheet.toLowerCase()));
    const { draft } = this.state;
    this.set({
      status: 'ready',
      matched: matches,
      lists: findLists(sheets).filter(({ match }) => !matched.has(match.sheet.toLowerCase())),
      ...(draft ? { draft: renewed(draft, sheets.values(draft.match.sheet)) } : {}),
    });
  }

  /** A sheet's cells as they are now. */
  private async read(sheet: string): Promise<MatchDraft['cells'] | undefined> {
    const { values } = await this.project.read(
      (there) => sheetsNamed(there, sheet).map((name) => ({ sheet: name })),
      [sheet],
    );
    return values(sheet);
  }

  /** Shows what a sheet's columns mean: as it is kept, or a guess. */
  async open(sheet: string): Promise<void> {
    try {
      const cells = (await this.read(sheet)) ?? [];
      const kept = this.state.matched.find((match) => match.sheet === sheet);
      const guess = kept
        ? { match: kept, weightBy: undefined, headers: headersAt(cells, kept.place) }
        : (guessMatch(sheet, cells) ?? guessAt(sheet, cells, { row: 0, height: 1 }));
      const columns = columnsOf(guess.match);
      const alike = this.state.lists.filter(({ match }) => match.sheet !== sheet && columnsOf(match) === columns);
      this.set({
        wrong: undefined,
        asked: true,
        draft: {
          match: guess.match,
          weightBy: guess.weightBy,
          cells,
          headers: guess.headers.map(({ text }) => text),
          alike: alike.map(({ match }) => match.sheet),
          withAlike: alike.length > 0,
        },
      });
    } catch (error) {
      this.set({ wrong: refusal(error) });
    }
  }

  close(): void {
    this.set({ draft: undefined, wrong: undefined, asked: true });
  }

  private change(change: (draft: MatchDraft) => Partial<MatchDraft>): void {
    const { draft } = this.state;
    if (draft) this.set({ draft: { ...draft, ...change(draft) }, wrong: undefined });
  }

  private changeMatch(change: (match: SheetMatch) => SheetMatch): void {
    this.change(({ match }) => ({ match: change(match) }));
  }

  mean(column: number, means: Means | undefined): void {
    this.change(({ match, cells }) => rematch(match, cells, column, means));
  }

  measure(column: number, unit: string): void {
    this.changeMatch((match) => ({
      ...match,
      columns: match.columns.map((one) => (one.column === column ? { ...one, unit } : one)),
    }));
  }

  readAs(means: Means, readAs: ReadAs): void {
    this.changeMatch((match) => ({
      ...match,
      columns: match.columns.map((one) => (one.means === means ? { ...one, readAs } : one)),
    }));
  }

  takeComponent(component: SheetMatch['component']): void {
    this.changeMatch((match) => ({ ...match, component }));
  }

  takeAlike(withAlike: boolean): void {
    this.change(() => ({ withAlike }));
  }

  /** Keeps the match on the sheet Matches, as one step. */
  async keep(): Promise<void> {
    const { draft } = this.state;
    if (!draft) return;
    const { match, alike, withAlike } = draft;
    try {
      const edits = matchEdits(await this.read(MATCHES.sheet), [
        match,
        ...(withAlike ? alike.map((sheet) => ({ ...match, sheet })) : []),
      ]);
      const there = sheetsNamed(this.project.now, MATCHES.sheet).length > 0;
      await this.workbook.apply(
        t('Match the columns of {sheet}', { sheet: match.sheet }),
        there ? edits.filter(({ kind }) => kind !== 'addSheet') : edits,
      );
      // A new sheet is the one in view: back to the list.
      await this.workbook.select({ sheet: match.sheet, row: 0, column: 0, rows: 1, columns: 1 });
      this.set({ draft: undefined, wrong: undefined, asked: true });
    } catch (error) {
      this.set({ wrong: `${t('Nothing was written.')} ${refusal(error)}` });
    }
  }

  /** Puts a CSV file on a sheet of its own, and shows the guess of its columns. */
  async bringIn(fileName: string, bytes: Promise<ArrayBuffer>): Promise<void> {
    try {
      const cells = csvCells(decodeText(await bytes));
      if (cells.length === 0) throw new Error(t('The file is empty. Choose a CSV file with a header row.'));
      const taken = new Set((await this.workbook.sheets()).map((one) => one.name.toLowerCase()));
      const name = freeSheetName(fileName.replace(/\.\w+$/, '') || t('List'), taken);
      await this.workbook.apply(t('Bring in {file}', { file: fileName }), [
        { kind: 'addSheet', name },
        {
          kind: 'write',
          range: { sheet: name, row: 0, column: 0, rows: cells.length, columns: cells[0]!.length },
          cells,
        },
      ]);
      await this.open(name);
    } catch (error) {
      this.set({ wrong: `${t('{file} was not brought in.', { file: fileName })} ${refusal(error)}` });
    }
  }
}

/** The draft over the sheet as it is now; undefined where its header is gone. */
function renewed(draft: MatchDraft, cells: MatchDraft['cells'] | undefined): MatchDraft | undefined {
  const headers = cells && headersAt(cells, draft.match.place).map(({ text }) => text);
  return headers?.join('\n') === draft.headers.join('\n') ? { ...draft, cells: cells! } : undefined;
}

/** By which lists of one kind are known. */
const columnsOf = ({ columns }: SheetMatch): string =>
  columns.map(({ header, means, unit }) => `${header.toLowerCase()} ${means} ${unit}`).join('\n');
