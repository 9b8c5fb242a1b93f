/** The view 'Rivets': the same joints in several kinds of rivets, by weight, money, work and strength. */
import { Button, Select } from '@fluentui/react-components';
import { t } from '../../locale';
import { Problems } from '../../shared/cell-list';
import { AddSheet } from '../start';
import { StepFoot } from '../../shared/step-foot';
import { useTab, undoKeys } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { ComparisonSection } from './comparison-section';
import { DetailSection } from './detail-section';
import { OwnSection } from './own-section';
import { RivetsStore } from './rivets-store';
import { SettingsSection } from './settings-section';
import { useStyles } from './styles';

export function RivetsView({ pane }: { readonly pane: PaneContext }) {
  const [store, { status, mend, component, joints, sheets, message }] = useTab(() => new RivetsStore(pane));
  const styles = useStyles();
  const { components } = store;

  let body;
  if (status === 'reading') body = <p className={styles.text}>{t('Reading the sheets…')}</p>;
  else if (status === 'failed') {
    body = (
      <>
        <p className={styles.text}>{mend}</p>
        <Button size="small" onClick={() => void store.readAgain()}>
          {t('Read them again')}
        </Button>
      </>
    );
  } else if (joints.length === 0) {
    body = (
      <>
        <NoJoints pane={pane} wrong={store.problems.length > 0} />
        <OwnSection store={store} />
      </>
    );
  } else {
    body = (
      <>
        {!sheets.priced && (
          <p className={styles.caution}>
            {t(
              'No price list in this workbook yet: weights and work are compared, money is not. The tab Prices adds one.',
            )}
          </p>
        )}
        <ComparisonSection store={store} />
        {!sheets.options && <SettingsSection store={store} />}
        <DetailSection store={store} />
        <OwnSection store={store} />
        {sheets.options && <SettingsSection store={store} />}
      </>
    );
  }
  return (
    <div style={{ display: 'contents' }} onKeyDown={undoKeys(store)}>
      {joints.length > 0 && (
        <div className={styles.bar}>
          <Select
            size="small"
            aria-label={t('Component')}
            className={styles.chooser}
            value={component}
            onChange={(_event, { value }) => store.choose(value)}
          >
            <option value="">{t('All components')}</option>
            {components.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </div>
      )}
      <div className={styles.body} tabIndex={-1}>
        {body}
        <Problems store={store} problems={store.problems} />
      </div>
      <StepFoot store={store} message={message} />
    </div>
  );
}

function NoJoints({ pane, wrong }: { readonly pane: PaneContext; readonly wrong: boolean }) {
  const styles = useStyles();
  return (
    <>
      <h2 className={styles.heading}>
        {wrong ? t('No joint to read yet') : t('No rivet joints in this workbook yet')}
      </h2>
      <p className={styles.text}>
        {t(
          'This tab compares the joints of a sheet named Joints: one row for each joint, with the columns Joint, Component, Grip or Sheet 1 to Sheet 3, Style, Diameter and Rivets. The sample wing has one.',
        )}
      </p>
      {!wrong && <AddSheet pane={pane} name="Joints" />}
    </>
  );
}
