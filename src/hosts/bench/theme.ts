/** The bench's theme is the system's: light, dark, or its high contrast colours. */
import { useSyncExternalStore } from 'react';
import type { ThemeName } from '../../pane';

const dark = matchMedia('(prefers-color-scheme: dark)');
const forced = matchMedia('(forced-colors: active)');

export const systemTheme = (): ThemeName => (forced.matches ? 'contrast' : dark.matches ? 'dark' : 'light');

/** Calls the listener whenever the system's theme changes; returns what ends that. */
export function onSystemTheme(listener: () => void): () => void {
  [dark, forced].forEach((query) => query.addEventListener('change', listener));
  return () => [dark, forced].forEach((query) => query.removeEventListener('change', listener));
}

export const useSystemTheme = (): ThemeName => useSyncExternalStore(onSystemTheme, systemTheme);
