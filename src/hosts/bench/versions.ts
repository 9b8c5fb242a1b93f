/**
 * The bench as an app: where its page comes with an app manifest, a worker beside it keeps the page's files, so that
 * it works without the network. A new version waits until the person asks for it.
 */
import { Store } from '../../pane/shared/store';

/** Its state says where another version than this page's is here and waits. */
export class Versions extends Store<{ readonly waiting: boolean }> {
  private worker: ServiceWorker | undefined;

  constructor(private readonly beforeLoading: () => Promise<void>) {
    super({ waiting: false });
  }

  /** Begins to keep the page's files; does nothing where the page is not made for it. */
  async start(): Promise<void> {
    if (!document.querySelector('link[rel=manifest]') || !('serviceWorker' in navigator)) return;
    const registration = await navigator.serviceWorker.register('worker.js', { updateViaCache: 'none' });
    const look = (): void => {
      // The first one of all waits for nobody, and is no new version.
      if (!registration.waiting || !registration.active) return;
      this.worker = registration.waiting;
      this.set({ waiting: true });
    };
    look();
    registration.addEventListener('updatefound', () => {
      const { installing } = registration;
      installing?.addEventListener('statechange', look);
    });
    document.addEventListener('visibilitychange', () => {
      // Without the network there is nothing new.
      if (document.visibilityState === 'visible') void registration.update().catch(() => undefined);
    });
  }

  /** Loads the version that waits, with the open workbook kept first. */
  async load(): Promise<void> {
    await this.beforeLoading();
    const { worker } = this;
    // Not by the page's change of worker: one that was opened before there was any has none to change.
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'activated') location.reload();
    });
    worker?.postMessage('take over');
  }
}
