import { useSyncExternalStore } from 'react';

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
