/** The panels beside the sheet for finding and replacing, sorting, filtering: which is open, the menu that opens one, and where it stands. */
import { t } from '../../../pane/locale';
import { Fetched, fetchedCode } from '../../../pane/shared/fetched';
import { Store, useStore } from '../../../pane/shared/store';
import type { UniverWorkbook } from '../../univer';
import { Entry, ListButton } from '../list-button';
import type { Tool } from './panel';

/** Its state counts how often one was asked for, so that asking again brings the keyboard back to it. */
export class Tools extends Store<{ readonly tool?: Tool | undefined; readonly asked: number }> {
  /** @param opening is called before one is opened */
  constructor(private readonly opening: () => void) {
    super({ asked: 0 });
  }

  open(tool: Tool): void {
    this.opening();
    this.set({ tool, asked: this.state.asked + 1 });
  }

  close(): void {
    this.set({ tool: undefined });
  }
}

/** What is done with a list or a sheet as a whole. */
export const ListMenu = ({ tools, disabled }: { readonly tools: Tools; readonly disabled: boolean }) => (
  <ListButton id="lists-list" title={t('Find, sort, filter …')} about={t('Find, sort and filter')} disabled={disabled}>
    <Entry
      onClick={() => tools.open('find')}
      title={t('Find and replace …')}
      about={t('Ctrl+F, or Ctrl+H with the text to put in its place')}
    />
    <Entry
      onClick={() => tools.open('sort')}
      title={t('Sort rows …')}
      about={t('The list around the selected cell, by one column or two')}
    />
    <Entry
      onClick={() => tools.open('filter')}
      title={t('Filter rows …')}
      about={t('Ctrl+Shift+L. Shows rows by what a column has; hidden rows still count')}
    />
  </ListButton>
);

/** The code of the panels is fetched when the first one is opened. */
const PANEL = fetchedCode(() => import(/* webpackChunkName: "lists" */ './panel'));

interface Props {
  readonly workbook: UniverWorkbook | undefined;
  readonly tools: Tools;
  /** Gives the keyboard back to the sheet. */
  readonly onClosed: () => void;
}

export function PanelPlace({ workbook, tools, onClosed }: Props) {
  const { tool, asked } = useStore(tools);
  if (!workbook || !tool) return null;
  return (
    <Fetched
      code={PANEL}
      failed={t('Finding, sorting and filtering could not be shown. Nothing in the workbook has changed.')}
    >
      {({ Panel }) => (
        <Panel
          key={`${workbook.id} ${tool}`}
          workbook={workbook}
          tool={tool}
          asked={asked}
          onClose={() => {
            tools.close();
            onClosed();
          }}
        />
      )}
    </Fetched>
  );
}
