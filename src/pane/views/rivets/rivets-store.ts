/** The view's state and everything it asks of the workbook, one thing at a time. */
import { compareRivets, DEFAULT_TERMS, type OptionResult } from '../../../core/rivet-choice';
import {
  newRivetOptionsSheet,
  newRivetsSheet,
  OWN_RIVETS_SHEET,
  RIVET_OPTIONS_SHEET,
  rivetOptions,
  usualOptions,
  type NamedKind,
  type Problem,
  type ProjectSheets,
  type RivetJoint,
} from '../../../project';
import { cellName, decodeText, type Edit } from '../../../sheet';
import { mark, t } from '../../locale';
import { isToAdd } from '../../shared/edits';
import { refusal } from '../../shared/refusal';
import { TabStore, type TabState } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { remapped, type Mapping, type CsvFile } from '../../shared/csv-import';
import {
  mapRivetColumns,
  planRivets,
  readRivetCsv,
  rivetImportEdits,
  sampleEdits,
  type RivetImport,
  type RivetTable,
  accessEdits,
  exceptionEdits,
  NOTHING_READ,
  readRivetSheets,
  rivetSheets,
  type RivetSheets,
} from './rivet-sheets';

export interface RivetsState extends TabState {
  readonly status: 'reading' | 'failed' | 'ready';
  readonly sheets: RivetSheets;
  /** '' for all. */
  readonly component: string;
  /** Place of the option whose joints are shown. */
  readonly picked: number;
  /** The joints of the component, and the options for them. */
  readonly joints: readonly RivetJoint[];
  readonly options: readonly NamedKind[];
  readonly results: readonly OptionResult[];
  /** A file of own rivets that is looked at before it is brought in. */
  readonly importing?: { readonly fileName: string; readonly file: CsvFile; readonly mapping: Mapping } | undefined;
}

export class RivetsStore extends TabStore<RivetsState> {
  protected readonly wanted = rivetSheets;

  constructor(pane: PaneContext) {
    super(pane, {
      status: 'reading',
      sheets: NOTHING_READ,
      component: '',
      picked: 0,
      joints: [],
      options: [],
      results: [],
    });
  }

  protected show(sheets: ProjectSheets): void {
    this.update({ sheets: readRivetSheets(sheets), status: 'ready', mend: undefined });
  }

  /** Takes in what has changed, and compares the rivets anew. */
  private update(change: Partial<RivetsState>): void {
    const state = { ...this.state, ...change };
    const all = state.sheets.joints?.joints ?? [];
    const component = all.some((joint) => joint.component === state.component) ? state.component : '';
    const joints = component === '' ? all : all.filter((joint) => joint.component === component);
    const sheet = state.sheets.options;
    const options = sheet?.options ?? usualOptions();
    const results = compareRivets(joints, rivetOptions(options, sheet?.exceptions ?? [], joints), state.sheets.book, {
      ...(sheet?.terms ?? DEFAULT_TERMS),
      ...(state.sheets.own ? { own: state.sheets.own.rivets } : {}),
    });
    this.set({
      ...change,
      component,
      joints,
      options,
      results,
      picked: Math.min(state.picked, Math.max(0, options.length - 1)),
    });
  }

  get components(): readonly string[] {
    return [...new Set((this.state.sheets.joints?.joints ?? []).map(({ component }) => component))];
  }

  get problems(): readonly Problem[] {
    const { joints, options, own } = this.state.sheets;
    return [...(joints?.problems ?? []), ...(options?.problems ?? []), ...(own?.problems ?? [])];
  }

  choose(component: string): void {
    this.update({ component, message: undefined });
  }

  pick(picked: number): void {
    this.set({ picked });
  }

  // Changes of the workbook

  async change(label: string, edits: readonly Edit[], said?: string): Promise<void> {
    if (edits.length > 0) await this.make({ label, edits, said });
  }

  /** Adds the sheet Rivet options with the usual options and figures. */
  addSheet(): Promise<unknown> {
    return this.make({
      label: t('Add the sheet of rivet options'),
      anew: [RIVET_OPTIONS_SHEET],
      edits: (now) =>
        newRivetOptionsSheet(
          isToAdd(
            now,
            RIVET_OPTIONS_SHEET,
            mark(
              'The sheet {sheet} holds something else: it has no columns Option and Rivets. Put these labels in its row of headers, or rename the sheet.',
            ),
          ),
          now.units,
        ),
      said: t('Added the sheet {sheet}: options, minutes, tools. Put your own figures in.', {
        sheet: RIVET_OPTIONS_SHEET,
      }),
    });
  }

  /** Other rivets at a joint of the option that is picked; '' for those of the option. */
  except(joint: RivetJoint, kind: string): Promise<void> {
    const { sheets, options, picked } = this.state;
    const option = options[picked];
    return sheets.options && option
      ? this.change(
          t('Rivets of {joint}', { joint: joint.joint }),
          exceptionEdits(sheets.options, option.name, joint, kind),
        )
      : Promise.resolve();
  }

  async setAccess(joint: RivetJoint, oneSide: boolean): Promise<void> {
    let added: string | undefined;
    await this.make({
      label: t('Access to {joint}', { joint: joint.joint }),
      edits: ({ values }) => {
        const { joints } = this.state.sheets;
        if (!joints) return [];
        const { sheet, header } = joints.form;
        const free = Math.max(0, ...(values(sheet) ?? []).map((line) => line.length));
        const change = accessEdits(joints, joint, oneSide, free);
        if (change.added)
          added = t('Added the column Access to the sheet {sheet}, at {cell}.', {
            sheet,
            cell: cellName(header, free),
          });
        return change.edits;
      },
      said: () => added,
    });
  }

  // Own rivets

  /** Adds the sheet Rivets with its table; the joints' formulas are another step. */
  addRivets(): Promise<unknown> {
    return this.make({
      label: t('Add the sheet {sheet}', { sheet: OWN_RIVETS_SHEET }),
      anew: [OWN_RIVETS_SHEET],
      edits: (now) =>
        newRivetsSheet(
          now.units,
          false,
          isToAdd(
            now,
            OWN_RIVETS_SHEET,
            mark('The sheet {sheet} holds something else: it has no columns Rivet, Kind and Diameter. Rename it.'),
          ),
        ).edits,
      said: t('Added the sheet {sheet}. Copy the figures from the maker’s sheet, or weigh some.', {
        sheet: OWN_RIVETS_SHEET,
      }),
    });
  }

  /** Writes the joints' formulas again, so that they look into the own rivets, and adds the columns that have come since. */
  useOwnRivets(): Promise<void> {
    const { rewrite } = this.state.sheets;
    if (!rewrite) return Promise.resolve();
    const { edits, formulas, added, left } = rewrite;
    return this.change(
      t('Let the joints use your own rivets'),
      edits,
      [
        t('{count, plural, one {# formula} other {# formulas}} of the joints written again.', { count: formulas }),
        added.length > 0 ? t('Added: {labels}.', { labels: added.join(', ') }) : '',
        left.length > 0
          ? t('Left as they were, since you wrote them: {cells}.', {
              cells: left.length > 6 ? `${left.slice(0, 6).join(', ')} …` : left.join(', '),
            })
          : '',
      ]
        .filter(Boolean)
        .join(' '),
    );
  }

  /** Weights of weighed samples that are not written yet. */
  get samples(): readonly Edit[] {
    const own = this.ownTable;
    return own ? sampleEdits(own.table, own) : [];
  }

  fillSamples(): Promise<void> {
    const edits = this.samples;
    return this.change(
      t('Weights of weighed samples'),
      edits,
      t('{count, plural, one {# weight} other {# weights}} filled in from samples.', { count: edits.length }),
    );
  }

  private get ownTable(): (RivetTable & NonNullable<RivetSheets['ownTable']>) | undefined {
    const { ownTable, units } = this.state.sheets;
    return ownTable && { ...ownTable, labels: ownTable.table.columns, units };
  }

  async openFile(fileName: string, bytes: Promise<ArrayBuffer>): Promise<void> {
    const own = this.ownTable;
    if (!own) return;
    this.say(undefined);
    try {
      const file = readRivetCsv(decodeText(await bytes));
      this.set({ importing: { fileName, file, mapping: mapRivetColumns(file.headers, own.labels) } });
    } catch (error) {
      this.tell('failed', refusal(error));
    }
  }

  map(column: number, place: number | undefined): void {
    const { importing } = this.state;
    if (importing) this.set({ importing: { ...importing, mapping: remapped(importing.mapping, column, place) } });
  }

  cancelImport(): void {
    this.set({ importing: undefined });
  }

  /** What the file would do to the table as it is now. */
  get foreseen(): RivetImport | undefined {
    const { importing } = this.state;
    const own = this.ownTable;
    return importing && own && planRivets(importing.file, importing.mapping, own);
  }

  async bringIn(): Promise<void> {
    const { importing } = this.state;
    await this.refresh();
    const plan = this.foreseen;
    const own = this.ownTable;
    if (!importing || !plan || !own) return;
    await this.change(
      t('Import {file}', { file: importing.fileName }),
      rivetImportEdits(own.table, own.rows, plan),
      t(
        '{added, plural, one {# rivet} other {# rivets}} added, {changed, number} changed, {refused, number} refused.',
        {
          added: plan.add.length,
          changed: plan.change.length,
          refused: plan.refused.length,
        },
      ),
    );
    this.set({ importing: undefined });
  }
}
