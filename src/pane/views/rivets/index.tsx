/** The view 'Rivets': the same joints in several kinds of rivets, by weight, money, work and strength. */
import { Select } from '@fluentui/react-components';
import { t } from '../../locale';
import { Problems } from '../../shared/cell-list';
import { AddSheet } from '../start';
import { TabFrame, WhenRead } from '../../shared/tab-frame';
import { useTab } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { ComparisonSection } from './comparison-section';
import { DetailSection } from './detail-section';
import { OwnSection } from './own-section';
import { RivetsStore } from './rivets-store';
import { SettingsSection } from './settings-section';
import { useStyles } from './styles';

export function Body({ pane }: { readonly pane: PaneContext }) {
  const [store, state] = useTab(() => new RivetsStore(pane));
  const styles = useStyles();
  const { component, joints, sheets, message } = state;
  const { components, problems } = store;
  return (
    <TabFrame store={store} message={message}>
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
        <WhenRead store={store} state={state}>
          {() =>
            joints.length === 0 ? (
              <>
                <NoJoints pane={pane} wrong={problems.length > 0} />
                <OwnSection store={store} />
              </>
            ) : (
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
            )
          }
        </WhenRead>
        <Problems store={store} problems={problems} />
      </div>
    </TabFrame>
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
