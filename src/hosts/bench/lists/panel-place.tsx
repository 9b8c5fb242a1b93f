/** Where a panel stands beside the sheet while one is open; its code is fetched when the first one is. */
import type { UniverWorkbook } from '../../univer';
import { t } from '../../../pane/locale';
import { Fetched, fetchedCode } from '../../../pane/shared/fetched';
import { useStore } from '../store';
import type { Tools } from './tools';

const PANEL = fetchedCode(() => import(/* webpackChunkName: "lists" */ './panel'));

interface Props {
  readonly workbook: UniverWorkbook | undefined;
  readonly tools: Tools;
  /** Gives the keyboard back to the sheet. */
  readonly onClosed: () => void;
}

export function PanelPlace({ workbook, tools, onClosed }: Props) {
  const { tool } = useStore(tools);
  if (!workbook || !tool) return null;
  return (
    <Fetched
      code={PANEL}
      failed={t('Finding, sorting and filtering could not be shown. Nothing in the workbook has changed.')}
    >
      {({ Panel }) => <Panel key={workbook.id} workbook={workbook} tools={tools} onClosed={onClosed} />}
    </Fetched>
  );
}
