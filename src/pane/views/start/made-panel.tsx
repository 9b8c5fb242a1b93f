/** What was added, where to type, and the way back. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useEffect, useRef, useState } from 'react';
import type { RangeAddress } from '../../../sheet';
import { t } from '../../locale';
import { refusal } from '../../shared/refusal';
import { useStore } from '../../shared/store';
import { undoKeys } from '../../shared/undo-keys';
import { LeftSheets } from './left-sheets';
import type { Made, StartStore } from './start-store';
import { useStyles } from './styles';
import { ADDED } from './start-words';

export function MadePanel({ store, made }: { readonly store: StartStore; readonly made: Made }) {
  const styles = useStyles();
  const { said } = useStore(store);
  const heading = useRef<HTMLHeadingElement>(null);
  const [wrong, setWrong] = useState<string>();
  useEffect(() => heading.current?.focus(), []);
  const { added } = made;
  const examples = added.reduce((sum, { exampleRows }) => sum + exampleRows, 0);

  const tried = async (work: () => Promise<void>): Promise<void> => {
    setWrong(undefined);
    await work().catch((error: unknown) => setWrong(refusal(error)));
  };
  const go = (range: RangeAddress): Promise<void> => tried(() => store.pane.workbook.select(range));
  const undo = (): Promise<void> => tried(() => store.undo());

  return (
    <section
      className={styles.panel}
      aria-labelledby="start-heading"
      onKeyDown={undoKeys({ undo, redo: async () => undefined })}
    >
      <h2 id="start-heading" ref={heading} tabIndex={-1} className={styles.heading}>
        {t('This workbook is ready')}
      </h2>
      <p className={styles.text}>
        {t(
          '{sheets, plural, one {# sheet was added} other {# sheets were added}}{rows, plural, =0 {} one {, with # invented example row} other {, with # invented example rows}}. Type in the shaded cells and in the price list; the other cells compute.',
          {
            sheets: added.length,
            rows: examples,
          },
        )}
      </p>
      <ul className={styles.sheets}>
        {added.map(({ name, sheet, exampleRows, typed, first }) => (
          <li key={name} className={mergeClasses(styles.sheet, styles.added)}>
            <span className={styles.name}>{sheet}</span>
            <span className={styles.what}>{t(ADDED[name], { rows: exampleRows, cells: typed })}</span>
            <Button size="small" onClick={() => void go(first)}>
              {t('Go to {sheet}', { sheet })}
            </Button>
          </li>
        ))}
      </ul>
      <LeftSheets made={made} />
      {examples > 0 && added.some(({ name }) => name === 'Parts') && (
        <p className={styles.text}>
          {t(
            'Try it: change a thickness on the sheet Parts, then look at the sheet Budget and the tab Weights. Delete the example rows when you have seen enough.',
          )}
        </p>
      )}
      <p className={styles.quiet}>
        {t(
          'An estimate is not a weighing. Loading limits come from the aircraft’s own documents, structural joints from the designer’s drawings.',
        )}
      </p>
      <div className={styles.buttons}>
        <Button appearance="primary" onClick={() => store.stepAside()}>
          {t('Close')}
        </Button>
        <Button onClick={() => void undo()}>{t('Undo')}</Button>
      </div>
      <p role="status" className={styles.text}>
        {said}
      </p>
      <div role="alert">{wrong !== undefined && <p className={styles.wrong}>{wrong}</p>}</div>
    </section>
  );
}
