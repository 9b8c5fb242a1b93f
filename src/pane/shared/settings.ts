/**
 * What a person prefers in the pane, kept by the browser on this computer. It is no part of the
 * workbook: nothing that a number depends on belongs here.
 */
export interface Settings {
  get(key: string): string | undefined;
  set(key: string, value: string): void;
}

const PREFIX = 'tarebook.pane.';

/** Settings in the browser's local storage; where that is refused they last as long as the pane. */
export function browserSettings(): Settings {
  const kept = new Map<string, string>();
  return {
    get(key) {
      try {
        return kept.get(key) ?? localStorage.getItem(PREFIX + key) ?? undefined;
      } catch {
        return kept.get(key);
      }
    },
    set(key, value) {
      kept.set(key, value);
      try {
        localStorage.setItem(PREFIX + key, value);
      } catch {
        // A host may forbid storage to guests: the setting then lasts as long as the pane.
      }
    },
  };
}
