/** A trial that runs elsewhere: what is asked of it, what is dropped, and when it ends. */
import { describe, expect, it } from 'vitest';
import { askHere, NoWorker, WorkerDied, type Asks } from '../../../../src/pane/shared/worker-asks';
import type { TrialStarter } from '../../../../src/pane/views/weights/what-if/running-trial';
import {
  trialAnswers,
  type Question,
  type TrialAnswers,
} from '../../../../src/pane/views/weights/what-if/trial-answers';
import { WeightsStore } from '../../../../src/pane/views/weights/weights-store';
import { bigList } from '../../../../tools/benchmarks/big-list';
import { openPane, started } from '../../open-pane';
import { copyOf, blindWorkbook } from './blind-workbook';
import { smallBook } from './small-book';

const NO_CALCULATOR = 'The calculator could not be loaded. Check the connection, then try again.';

/** Trials beside the page, with a look at what each was asked and whether it was ended. */
class Trials {
  readonly all: { readonly asked: string[]; readonly wishes: Question[]; ended: boolean }[] = [];
  /** Those whose worker has died. */
  readonly dead = new Set<unknown>();
  /** Holds back the answer to what is tried until it is resolved; fails it where it rejects. */
  hold: Promise<unknown> | undefined;
  /** The next one is not to be had. */
  lacking = false;

  readonly start: TrialStarter = () => {
    const asks = askHere(trialAnswers());
    const one = { asked: [] as string[], wishes: [] as Question[], ended: false };
    this.all.push(one);
    const { lacking } = this;
    const ask = async (what: keyof TrialAnswers, given: never): Promise<unknown> => {
      one.asked.push(what);
      if (lacking) throw new NoWorker();
      if (this.dead.has(one)) throw new WorkerDied();
      if (what === 'tryOut') {
        one.wishes.push(given);
        await this.hold;
      }
      return asks.ask(what, given);
    };
    return {
      ask,
      end: () => {
        one.ended = true;
        asks.end();
      },
    } as Asks<TrialAnswers>;
  };

  get running(): number {
    return this.all.filter(({ ended }) => !ended).length;
  }
}

async function open() {
  const trials = new Trials();
  const { pane, workbook, type, settle } = await openPane(smallBook());
  return { trials, workbook, type, settle, store: await started(new WeightsStore(pane, trials.start)) };
}

const change = (store: WeightsStore, thickness: string): void => void store.change({ thickness });
const untilTried = (store: WeightsStore): Promise<void> => expect.poll(() => store.state.tried).toBe(store.state.draft);

/** A part is picked, and .04 in has been tried for it. */
async function openTried() {
  const opened = await open();
  await opened.store.pick([1]);
  change(opened.store, '.04');
  await untilTried(opened.store);
  return opened;
}

describe('a trial', () => {
  it('is not started when the view is read, and is when rows are picked', async () => {
    const { store, trials } = await open();
    expect(trials.all).toEqual([]);
    await store.pick([1]);
    expect(trials.all).toHaveLength(1);
    expect(store.state.trial).toBeDefined();
    expect(store.state.outcome).toBeUndefined();
  });

  it('is told the cells once, then what is typed alone', async () => {
    const { store, trials } = await openTried();
    change(store, '.05');
    await untilTried(store);
    const { asked } = trials.all[0]!;
    expect(asked.slice(asked.indexOf('begin'))).toEqual(['begin', 'tryOut', 'tryOut', 'tryOut']);
    expect(asked.filter((what) => what === 'take')).toHaveLength((await store.pane.workbook.sheets()).length);
  });

  it('keeps the last outcome until that of what is typed is there, and takes the newest alone', async () => {
    const { store, trials } = await open();
    await store.pick([2]);
    change(store, '.032');
    await untilTried(store);
    const first = store.state.outcome;
    expect(first?.changes.first.map(({ to }) => to)).toEqual(['0.032', 'sheet .032']);
    let letGo: (value?: unknown) => void = () => undefined;
    trials.hold = new Promise((resolve) => (letGo = resolve));
    change(store, '.0');
    await expect.poll(() => trials.all[0]!.wishes).toHaveLength(3);
    for (const typed of ['.04', '.04 i', '.05']) change(store, typed);
    expect(store.state.tried).not.toBe(store.state.draft);
    letGo();
    await untilTried(store);
    expect(store.state.outcome?.changes.first.map(({ to }) => to)).toEqual(['0.05']);
    // One that was on its way, and the newest.
    expect(trials.all[0]!.wishes).toHaveLength(4);
  });

  it('ends when it is cancelled, be the workbook copied or not', async () => {
    const { store, trials } = await open();
    const picking = store.pick([1]);
    expect(store.state.copying).toBe(true);
    store.cancel();
    await picking;
    expect(trials.running).toBe(0);
    expect(store.state).toMatchObject({ copying: false, trial: undefined, message: { tone: 'done' } });
    await store.pick([1]);
    expect(trials.running).toBe(1);
    store.cancel();
    expect(trials.running).toBe(0);
  });

  it('ends when it is applied, when it is out of sight, and with the tab', async () => {
    const { store, trials, workbook } = await open();
    await store.pick([2]);
    change(store, '.032');
    await untilTried(store);
    expect(await store.apply()).toBe(true);
    expect(trials.running).toBe(0);
    expect(await workbook.read({ sheet: 'Parts', row: 2, column: 3, rows: 1, columns: 1 })).toEqual([[0.032]]);

    await store.pick([2]);
    change(store, '.04');
    await untilTried(store);
    store.endTrial();
    expect(trials.running).toBe(0);
    expect(store.state.outcome).toBeDefined();
    // Of a workbook that may be another by now, nothing is applied.
    expect(await store.apply()).toBe(false);
    await store.resumeTrial();
    expect(trials.running).toBe(1);
    expect(store.state.tried).toBe(store.state.draft);
    store.stop();
    expect(trials.running).toBe(0);
  });

  it('is made anew when the workbook changes; the one before ends then', async () => {
    const { store, trials, type, settle } = await open();
    await store.pick([1]);
    change(store, '.04');
    await untilTried(store);
    const before = store.state.outcome!.total.before.weight;
    type('Parts', 3, 4, 2000);
    await settle();
    await expect.poll(() => store.state.outcome!.total.before.weight).toBeGreaterThan(before + 1);
    await untilTried(store);
    expect(trials.running).toBe(1);
  });

  it('that cannot be had says what to do, and is started anew at the next try', async () => {
    const { store, trials } = await open();
    trials.lacking = true;
    await store.pick([1]);
    expect(store.state.message).toMatchObject({
      tone: 'failed',
      text: `The workbook could not be copied for a trial. ${NO_CALCULATOR}`,
    });
    expect(trials.running).toBe(0);
    trials.lacking = false;
    change(store, '.04');
    await untilTried(store);
    expect(store.state.outcome).toBeDefined();
  });

  it('whose worker dies is worked out by another one, with nothing said', async () => {
    const { store, trials } = await openTried();
    trials.dead.add(trials.all[0]!);
    change(store, '.05');
    change(store, '.055');
    await untilTried(store);
    expect(store.state.outcome?.changes.first[0]?.to).toBe('0.055');
    expect(store.state.message).toBeUndefined();
    expect(trials.all).toHaveLength(2);
    expect(trials.running).toBe(1);
  });

  it('whose worker dies before it is applied says so, writes nothing, and is worked out again', async () => {
    const { store, trials } = await openTried();
    trials.dead.add(trials.all[0]!);
    expect(await store.apply()).toBe(false);
    expect(store.state.message).toMatchObject({ tone: 'failed', text: NO_CALCULATOR });
    await untilTried(store);
    expect(store.state.message).toMatchObject({ tone: 'failed', text: NO_CALCULATOR });
    expect(await store.apply()).toBe(true);
  });

  it('whose workers die one after the other says so, applies nothing, and is started anew at the next try', async () => {
    const { store, trials } = await openTried();
    trials.hold = Promise.reject(new WorkerDied());
    trials.hold.catch(() => undefined);
    change(store, '.05');
    await expect.poll(() => store.state.message).toMatchObject({ tone: 'failed', text: NO_CALCULATOR });
    expect(trials.all).toHaveLength(2);
    expect(store.state.trial).toBeUndefined();
    expect(await store.apply()).toBe(false);
    trials.hold = undefined;
    change(store, '.06');
    await untilTried(store);
    expect(store.state.outcome?.changes.first[0]?.to).toBe('0.06');
    expect(trials.running).toBe(1);
  });
});

describe('the copy', () => {
  it('of a list of several blocks is the workbook, cell by cell', async () => {
    const model = bigList(1200, 'cells');
    const taken: number[] = [];
    const workbook = blindWorkbook(model);
    const copy = await copyOf({
      ...workbook,
      read: (range) => {
        taken.push(range.rows);
        return workbook.read(range);
      },
    });
    expect(Math.max(...taken)).toBeLessThan(1000);
    const cells = (book: typeof model) =>
      book.sheets.map((sheet) =>
        sheet.cells.map((line) =>
          Array.from(line ?? [], (cell) =>
            cell && (cell.value !== null || cell.formula) ? [cell.value, cell.formula] : undefined,
          ),
        ),
      );
    expect(cells(copy).map((lines) => lines.length)).toEqual(model.sheets.map((sheet) => sheet.cells.length));
    const trimmed = (book: typeof model) =>
      cells(book).map((lines) => lines.map((line) => Object.entries(line).filter(([, cell]) => cell)));
    expect(trimmed(copy)).toEqual(trimmed(model));
  });
});
