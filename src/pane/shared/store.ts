import { useSyncExternalStore } from 'react';

/** Does its work once at a time: calls that come meanwhile are met by doing it once more. */
export class OnceMore {
  private running: Promise<void> | undefined;
  private again = false;

  constructor(private readonly work: () => Promise<void>) {}

  /** True where what is being done will be done once more. */
  get outdated(): boolean {
    return this.again;
  }

  run(): Promise<void> {
    if (this.running) this.again = true;
    else this.running = this.runAll();
    return this.running;
  }

  private async runAll(): Promise<void> {
    try {
      do {
        this.again = false;
        await this.work();
      } while (this.again);
    } finally {
      this.running = undefined;
    }
  }
}

/** State outside the components, so that host calls and their order are nobody's side effect. */
export abstract class Store<S extends object> {
  private readonly listeners = new Set<() => void>();

  constructor(private current: S) {}

  get state(): S {
    return this.current;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  readonly snapshot = (): S => this.current;

  protected set(change: Partial<S>): void {
    this.current = { ...this.current, ...change };
    this.listeners.forEach((listener) => listener());
  }
}

export const useStore = <S extends object>(store: Store<S>): S => useSyncExternalStore(store.subscribe, store.snapshot);
