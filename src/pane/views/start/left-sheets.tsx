import { t } from '../../locale';
import type { Made } from './start-store';
import { useStyles } from './styles';

/** Sheets that hold something else, and what becomes of them: nothing. */
export function LeftSheets({
  made: { added, left },
  ahead = false,
}: {
  readonly made: Made;
  readonly ahead?: boolean;
}) {
  const styles = useStyles();
  const prices = added.find(({ name }) => name === 'Prices');
  return left.map((sheet) => (
    <p key={sheet} className={styles.text}>
      {prices && sheet.toLowerCase() === prices.name.toLowerCase()
        ? ahead
          ? t('The sheet {sheet} holds something else and stays as it is. The price list goes on a sheet {other}.', {
              sheet,
              other: prices.sheet,
            })
          : t('The sheet {sheet} holds something else and was left as it is; the price list is on the sheet {other}.', {
              sheet,
              other: prices.sheet,
            })
        : ahead
          ? t(
              'The sheet {sheet} holds something else and stays as it is. Rename it first if you want the sheet above.',
              { sheet },
            )
          : t(
              'The sheet {sheet} holds something else and was left as it is. Rename it, then the tab that needs the sheet can add it.',
              { sheet },
            )}
    </p>
  ));
}
