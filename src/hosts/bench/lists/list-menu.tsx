/** What is done with a list or a sheet as a whole. */
import { t } from '../../../pane/locale';
import { Entry, ListButton } from '../list-button';
import type { Tools } from './tools';

export function ListMenu({ tools, disabled }: { readonly tools: Tools; readonly disabled: boolean }) {
  return (
    <ListButton
      id="lists-list"
      title={t('Find, sort, filter …')}
      about={t('Find, sort and filter')}
      disabled={disabled}
    >
      <Entry
        onClick={() => tools.open({ kind: 'find', replacing: false })}
        title={t('Find and replace …')}
        about={t('Ctrl+F, or Ctrl+H with the text to put in its place')}
      />
      <Entry
        onClick={() => tools.open({ kind: 'sort' })}
        title={t('Sort rows …')}
        about={t('The list around the selected cell, by one column or two')}
      />
      <Entry
        onClick={() => tools.open({ kind: 'filter' })}
        title={t('Filter rows …')}
        about={t('Ctrl+Shift+L. Shows rows by what a column has; hidden rows still count')}
      />
    </ListButton>
  );
}
