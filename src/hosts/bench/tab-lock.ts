/** One tab keeps a workbook at a time: the others are told, and can take it over. */

const channelName = 'tarebook-bench';

export interface Held {
  release(): void;
}

/**
 * Holds the workbook for this tab; undefined where another tab has it. `onAsked` is called when another
 * tab asks for it: it keeps what is not kept yet, and the workbook is then given away.
 */
export async function hold(id: string, onAsked: () => Promise<void>): Promise<Held | undefined> {
  if (!('locks' in navigator)) return { release: () => undefined };
  let release: () => void = () => undefined;
  const held = new Promise<boolean>((resolve) => {
    navigator.locks
      .request(`tarebook-bench ${id}`, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock ? new Promise<void>((end) => (release = end)) : undefined;
      })
      // A browser that refuses locks has no way to tell its tabs apart: each goes on as if it were alone.
      .catch(() => resolve(true));
  });
  if (!(await held)) return undefined;
  const channel = new BroadcastChannel(channelName);
  channel.onmessage = ({ data }: MessageEvent<{ ask?: string }>) => {
    if (data.ask !== id) return;
    void onAsked().finally(() => {
      channel.close();
      release();
    });
  };
  return {
    release: () => {
      channel.close();
      release();
    },
  };
}

/** Asks the tab that has the workbook to give it away; resolves when it has, or after `patience` milliseconds. */
export async function ask(id: string, patience = 3000): Promise<void> {
  const channel = new BroadcastChannel(channelName);
  channel.postMessage({ ask: id });
  channel.close();
  const signal = AbortSignal.timeout(patience);
  await navigator.locks.request(`tarebook-bench ${id}`, { signal }, () => undefined).catch(() => undefined);
}
