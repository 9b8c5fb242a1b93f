/** The task pane beside the grid: its frame, its width, whether it is shown, and the theme that it has with the page. */
import { useEffect, useRef, useState, useSyncExternalStore, type KeyboardEvent, type PointerEvent } from 'react';
import { loadLocale, mountPane, type MountedPane, type ThemeName } from '../../pane';
import { setLocale } from '../../pane/locale';
import type { Workbook } from '../../sheet';

const dark = matchMedia('(prefers-color-scheme: dark)');
const forced = matchMedia('(forced-colors: active)');

/** The bench's theme is the system's: light, dark, or its high contrast colours. */
export const systemTheme = (): ThemeName => (forced.matches ? 'contrast' : dark.matches ? 'dark' : 'light');

/** Calls the listener whenever the system's theme changes; returns what ends that. */
export function onSystemTheme(listener: () => void): () => void {
  [dark, forced].forEach((query) => query.addEventListener('change', listener));
  return () => [dark, forced].forEach((query) => query.removeEventListener('change', listener));
}

export const useSystemTheme = (): ThemeName => useSyncExternalStore(onSystemTheme, systemTheme);

/** The grid writes numbers as the English-speaking do: so does the pane, unless the page's address asks for others. */
const asked = new URLSearchParams(location.search);
const locale = loadLocale(asked.get('language') ?? 'en', asked.get('numbers') ?? 'en-US');
// Texts of the page beside the pane are in its language.
void locale.then(setLocale);

/** The task pane over one workbook; another workbook gets another pane. */
export function PaneFrame({ workbook, theme }: { readonly workbook: Workbook; readonly theme: ThemeName }) {
  const frame = useRef<HTMLDivElement>(null);
  const pane = useRef<MountedPane>(undefined);
  useEffect(() => {
    const root = document.createElement('div');
    root.className = 'pane-root';
    frame.current?.append(root);
    let gone = false;
    void locale.then((locale) => {
      if (!gone)
        pane.current = mountPane(root, workbook, {
          theme: systemTheme(),
          locale,
          loadRecalculate: async () => (await import('../../calculation/recalculate-copy')).recalculateCopy,
          helpUrl: (name) => `reference/${name}.html`,
        });
    });
    return () => {
      gone = true;
      const leaving = pane.current;
      pane.current = undefined;
      // A root may not be taken down while React draws another one.
      setTimeout(() => {
        leaving?.unmount();
        root.remove();
      });
    };
  }, [workbook]);
  useEffect(() => pane.current?.setTheme(theme), [theme]);
  return <div ref={frame} className="pane-frame" />;
}

/** How the pane stands beside the grid, remembered by the browser. */
interface PaneLook {
  readonly width: number;
  readonly shown: boolean;
}

const NARROWEST = 320;
const WIDEST = 900;
const KEY = 'tarebook.bench.pane';

function readPaneLook(): PaneLook {
  const usual = { width: 420, shown: window.innerWidth >= 900 };
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? 'null') as Partial<Record<keyof PaneLook, unknown>> | null;
    return {
      width: typeof kept?.width === 'number' ? within(kept.width) : usual.width,
      shown: typeof kept?.shown === 'boolean' ? kept.shown : usual.shown,
    };
  } catch {
    // Refused or unreadable storage: the usual look.
    return usual;
  }
}

/** How the pane stands, and what changes that. */
export function usePaneLook(): readonly [PaneLook, (change: Partial<PaneLook>) => void] {
  const [look, setLook] = useState(readPaneLook);
  const change = (next: Partial<PaneLook>): void => {
    const all = { ...look, ...next };
    setLook(all);
    try {
      localStorage.setItem(KEY, JSON.stringify(all));
    } catch {
      // Where storage is refused the look lasts as long as the page.
    }
  };
  return [look, change];
}

const within = (width: number): number => Math.round(Math.min(WIDEST, Math.max(NARROWEST, width)));

const STEP = 24;

/** The line between grid and pane: dragged, or moved with the arrow keys. */
export function Splitter({ width, onWidth }: { readonly width: number; readonly onWidth: (width: number) => void }) {
  const start = useRef<{ x: number; width: number } | undefined>(undefined);
  const down = (event: PointerEvent<HTMLDivElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    start.current = { x: event.clientX, width };
  };
  const move = ({ clientX }: PointerEvent<HTMLDivElement>): void => {
    if (start.current) onWidth(within(start.current.width + start.current.x - clientX));
  };
  const key = (event: KeyboardEvent<HTMLDivElement>): void => {
    const next = { ArrowLeft: width + STEP, ArrowRight: width - STEP, Home: WIDEST, End: NARROWEST }[event.key];
    if (next === undefined) return;
    event.preventDefault();
    onWidth(within(next));
  };
  return (
    <div
      className="splitter"
      role="separator"
      aria-orientation="vertical"
      aria-label="Width of the task pane"
      aria-valuenow={width}
      aria-valuemin={NARROWEST}
      aria-valuemax={WIDEST}
      tabIndex={0}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={() => (start.current = undefined)}
      onPointerCancel={() => (start.current = undefined)}
      onKeyDown={key}
    />
  );
}
