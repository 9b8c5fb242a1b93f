/** A panel beside the sheet, which can be used meanwhile. */
import { useEffect, useRef, type ReactNode } from 'react';
import { t } from '../../../pane/locale';
import { useStore } from '../store';
import { FilterPanel } from './filter-panel';
import { FindPanel } from './find-panel';
import { SortPanel } from './sort-panel';
import type { PanelProps, Tool, Tools } from './tools';

interface Props extends PanelProps {
  readonly tools: Tools;
  /** Gives the keyboard back to the sheet. */
  readonly onClosed: () => void;
}

export function Panel({ workbook, tools, onClosed }: Props) {
  const { tool, asked } = useStore(tools);
  if (!tool) return null;
  const close = (): void => {
    tools.close();
    onClosed();
  };
  return (
    <Frame key={tool.kind} title={titleOf(tool)} asked={asked} onClose={close}>
      <Body tool={tool} workbook={workbook} />
    </Frame>
  );
}

function Body({ tool, workbook }: PanelProps & { readonly tool: Tool }) {
  switch (tool.kind) {
    case 'find':
      return <FindPanel workbook={workbook} />;
    case 'sort':
      return <SortPanel workbook={workbook} />;
    case 'filter':
      return <FilterPanel workbook={workbook} />;
  }
}

function titleOf({ kind }: Tool): string {
  switch (kind) {
    case 'find':
      return t('Find and replace');
    case 'sort':
      return t('Sort');
    case 'filter':
      return t('Filter');
  }
}

interface FrameProps {
  readonly title: string;
  readonly asked: number;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

function Frame({ title, asked, onClose, children }: FrameProps) {
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
      aria-label={title}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose();
        // What is typed here is not for the sheet behind.
        event.stopPropagation();
      }}
    >
      <div className="tool-head">
        <h2>{title}</h2>
        <button type="button" onClick={onClose} aria-label={t('Close')} title={t('Close')}>
          ✕
        </button>
      </div>
      {children}
    </section>
  );
}
