/** The view 'Buying': what is left to buy and at which supplier, what it costs, what is spent. */
import { Button } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import { t } from '../../locale';
import { Problems } from '../../shared/problems';
import { StepFoot } from '../../shared/step-foot';
import { useStore } from '../../shared/store';
import { undoKeys } from '../../shared/undo-keys';
import { useTab } from '../../shared/use-tab';
import type { PaneContext } from '../../shared/view';
import { BuyingStore } from './buying-store';
import { ListSection, SumsSection } from './list-section';
import { listByPlans } from './made-plans';
import { PlanSection } from './plan-section';
import { PlanStore } from './plan-store';
import { useStyles } from './styles';
import { TermsSection } from './terms-section';

export function BuyingView({ pane }: { readonly pane: PaneContext }) {
  const [store, { status, mend, sheets, message }] = useTab(() => new BuyingStore(pane));
  const [plans] = useState(() => new PlanStore(pane));
  useEffect(() => () => plans.stop(), [plans]);
  const { made } = useStore(plans);
  const shown = useMemo(() => sheets && { ...sheets, list: listByPlans(sheets, made) }, [sheets, made]);
  const styles = useStyles();

  let body;
  if (status === 'failed') {
    body = (
      <>
        <p className={styles.text}>{mend}</p>
        <Button size="small" onClick={() => void store.readAgain()}>
          {t('Read them again')}
        </Button>
      </>
    );
  } else if (!shown) body = <p className={styles.text}>{t('Reading the sheets…')}</p>;
  else {
    const { list } = shown;
    const anything = list.orders.length + list.met.length + list.unpriced.length > 0;
    body = (
      <>
        {shown.prices !== 'read' && <p className={styles.caution}>{unpricedWords(shown.prices)}</p>}
        {anything || list.spent > 0 ? <SumsSection list={list} /> : <NothingNeeded />}
        {anything && <ListSection sheets={shown} />}
        {shown.parts && <PlanSection store={plans} buying={store} sheets={shown} />}
        <TermsSection store={store} sheets={shown} />
        <Problems store={store} problems={shown.problems} />
      </>
    );
  }
  return (
    <div style={{ display: 'contents' }} onKeyDown={undoKeys(store)}>
      <div className={styles.body} tabIndex={-1}>
        {body}
      </div>
      <StepFoot store={store} message={message} />
    </div>
  );
}

function unpricedWords(prices: 'none' | 'empty' | 'unread'): string {
  switch (prices) {
    case 'none':
      return t('No price list in this workbook yet. The tab Prices adds one.');
    case 'empty':
      return t('The price list is empty. Type the first item in the tab Prices.');
    case 'unread':
      return t('No row of the price list can be read. The tab Prices says what to fix.');
  }
}

function NothingNeeded() {
  const styles = useStyles();
  return (
    <>
      <h2 className={styles.heading}>{t('Nothing to buy yet')}</h2>
      <p className={styles.text}>
        {t(
          'The list comes from the sheet Parts, columns Price item and Use, and from the rivets of the sheet Joints. The sample wing has both.',
        )}
      </p>
    </>
  );
}
