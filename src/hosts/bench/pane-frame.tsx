import { useEffect, useRef } from 'react';
import { loadLocale, mountPane, type MountedPane, type ThemeName } from '../../pane';
import { setLocale } from '../../pane/locale';
import type { Workbook } from '../../sheet';
import { systemTheme } from './theme';

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
