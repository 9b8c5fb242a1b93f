/** The calculator of a trial is fetched when a trial starts, and not before. */
import { describe, expect, it, vi } from 'vitest';
import { recalculateCopy } from '../../../../src/calculation/recalculate-copy';
import { saying } from '../../../../src/pane/shared/load-recalculate';
import type { Recalculate } from '../../../../src/pane/shared/view';
import { WeightsStore } from '../../../../src/pane/views/weights/weights-store';
import { openPane, started } from '../../open-pane';
import { smallBook } from './small-book';

async function open(load: () => Promise<Recalculate>) {
  const fetches = vi.fn(load);
  const { pane } = await openPane(smallBook(), { loadRecalculate: saying(fetches) });
  return { store: await started(new WeightsStore(pane)), fetches };
}

describe('the calculator of a trial', () => {
  it('is not fetched when the view is read, and is when rows are picked', async () => {
    const { store, fetches } = await open(() => Promise.resolve(recalculateCopy));
    expect(store.state.status).toBe('ready');
    expect(fetches).not.toHaveBeenCalled();
    await store.pick([1]);
    expect(fetches).toHaveBeenCalledOnce();
    expect(store.state.trial?.doubts).toEqual([]);
  });

  it('says what to do where it cannot be fetched, and is fetched at the next try', async () => {
    let isReached = false;
    const { store } = await open(() =>
      isReached ? Promise.resolve(recalculateCopy) : Promise.reject(new Error('Loading chunk 7 failed.')),
    );
    await store.pick([1]);
    expect(store.state.message).toMatchObject({
      tone: 'failed',
      text: 'The workbook could not be copied for a trial. The calculator could not be loaded. Check the connection, then try again.',
    });
    isReached = true;
    await store.pick([1]);
    expect(store.state.trial).toBeDefined();
  });
});
