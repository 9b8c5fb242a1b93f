import { useSyncExternalStore } from 'react';

/** State that lives outside the components, which only show it. */
export class Store<S extends object> {
  private readonly listeners = new Set<() => void>();

  constructor(private current: S) {}

  get state(): S {
    return this.current;
  }

  set(change: Partial<S>): void {
    this.current = { ...this.current, ...change };
    this.listeners.forEach((listener) => listener());
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
}

export function useStore<S extends object>(store: Store<S>): S {
  return useSyncExternalStore(store.subscribe, () => store.state);
}
