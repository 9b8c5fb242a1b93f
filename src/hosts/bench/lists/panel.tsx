/** A panel beside the sheet, which can be used meanwhile. */
import { useEffect, useRef } from 'react';
import { mark, t } from '../../../pane/locale';
import type { UniverWorkbook } from '../../univer';
import { FilterPanel } from './filter-panel';
import { FindPanel } from './find-panel';
import { SortPanel } from './sort-panel';

const PANELS = {
  find: { title: mark('Find and replace'), Body: FindPanel },
  sort: { title: mark('Sort'), Body: SortPanel },
  filter: { title: mark('Filter'), Body: FilterPanel },
} as const;

export type Tool = keyof typeof PANELS;

interface Props {
  readonly workbook: UniverWorkbook;
  readonly tool: Tool;
  /** Counts how often it was asked for: the keyboard comes to it each time. */
  readonly asked: number;
  readonly onClose: () => void;
}

export function Panel({ workbook, tool, asked, onClose }: Props) {
  const { title, Body } = PANELS[tool];
  const frame = useRef<HTMLElement>(null);
  useEffect(() => {
    const field = frame.current?.querySelector<HTMLElement>('input:not([type=checkbox]), select, button.tool-first');
    field?.focus();
    if (field instanceof HTMLInputElement) field.select();
  }, [asked]);
  return (
    <section
      ref={frame}
      className="tool"
      role="dialog"
      aria-label={t(title)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose();
        // What is typed here is not for the sheet behind.
        event.stopPropagation();
      }}
    >
      <div className="tool-head">
        <h2>{t(title)}</h2>
        <button type="button" onClick={onClose} aria-label={t('Close')} title={t('Close')}>
          ✕
        </button>
      </div>
      <Body workbook={workbook} />
    </section>
  );
}
