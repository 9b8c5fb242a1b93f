import { useEffect, useRef } from 'react';
import { loadLocale, mountPane, type MountedPane } from '../../pane';
import type { Workbook } from '../../workbook';
import { recalculateCopy } from '../headless/recalculate-copy';

/** The grid writes numbers as the English-speaking do: so does the pane, unless the page's address asks for others. */
const asked = new URLSearchParams(location.search);
const locale = loadLocale(asked.get('language') ?? 'en', asked.get('numbers') ?? 'en-US');

/** The task pane over one workbook; another workbook gets another pane. */
export function PaneFrame({ workbook }: { readonly workbook: Workbook }) {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const root = document.createElement('div');
    root.className = 'pane-root';
    frame.current?.append(root);
    let pane: MountedPane | undefined;
    let gone = false;
    void locale.then((locale) => {
      if (!gone) pane = mountPane(root, workbook, { theme: 'light', locale, recalculate: recalculateCopy, helpUrl: (name) => `reference/${name}.html` });
    });
    return () => {
      gone = true;
      // A root may not be taken down while React draws another one.
      setTimeout(() => {
        pane?.unmount();
        root.remove();
      });
    };
  }, [workbook]);
  return <div ref={frame} className="pane-frame" />;
}
