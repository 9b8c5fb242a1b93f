import { useEffect, useRef } from 'react';
import { mountPane } from '../../pane';
import type { Workbook } from '../../workbook';
import { recalculateCopy } from '../headless/recalculate-copy';

/** The task pane over one workbook; another workbook gets another pane. */
export function PaneFrame({ workbook }: { readonly workbook: Workbook }) {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const root = document.createElement('div');
    root.className = 'pane-root';
    frame.current?.append(root);
    const pane = mountPane(root, workbook, { theme: 'light', recalculate: recalculateCopy, helpUrl: (name) => `reference/${name}.html` });
    return () => {
      // A root may not be taken down while React draws another one.
      setTimeout(() => {
        pane.unmount();
        root.remove();
      });
    };
  }, [workbook]);
  return <div ref={frame} className="pane-frame" />;
}
