/** In a view's empty state: adds the one sheet that the view needs, or leads to it where it is there and has no row yet. */
import { Button } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { cellName, type RangeAddress } from '../../../sheet';
import type { ProjectSheetName } from '../../../project';
import { t } from '../../locale';
import { refusal } from '../../shared/refusal';
import type { PaneContext } from '../../shared/view';
import { useStyles } from './styles';

export function AddSheet({ pane, name }: { readonly pane: PaneContext; readonly name: ProjectSheetName }) {
  const styles = useStyles();
  const [first, setFirst] = useState<RangeAddress>();
  const [wrong, setWrong] = useState<string>();
  const { workbook } = pane;

  useEffect(() => {
    const look = (): void =>
      void import('./make').then(({ firstRow }) => firstRow(workbook, name)).then(setFirst, () => setFirst(undefined));
    look();
    return workbook.onChange(look);
  }, [workbook, name]);

  const tried = async (work: () => Promise<void>): Promise<void> => {
    setWrong(undefined);
    try {
      await work();
    } catch (error) {
      setWrong(refusal(error));
    }
  };
  const add = async (): Promise<void> => (await import('./make')).addProjectSheet(pane, name);

  return (
    <>
      {first ? (
        <p role="status" className={styles.text}>
          {t('The sheet {sheet} is ready and empty. Type the first row from {cell} on.', {
            sheet: name,
            cell: cellName(first.row, first.column),
          })}
        </p>
      ) : (
        <p className={styles.text}>
          {t('The sheet has labels and a formula in every row. A price list is added if there is none.')}
        </p>
      )}
      {/* One button, so that the focus stays where it was. */}
      <div className={styles.buttons}>
        <Button appearance="primary" onClick={() => void tried(first ? () => workbook.select(first) : add)}>
          {first ? t('Go to {sheet}', { sheet: name }) : t('Add the sheet {sheet}', { sheet: name })}
        </Button>
      </div>
      <div role="alert">{wrong !== undefined && <p className={styles.wrong}>{wrong}</p>}</div>
    </>
  );
}
