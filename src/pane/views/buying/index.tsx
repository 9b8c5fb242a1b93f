/** The view 'Buying': what is left to buy and at which supplier, what it costs, what is spent. */
import { Button } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import { HARDWARE, type ShoppingTerms } from '../../../core/shopping';
import { BUYING_SHEET, PURCHASES, STOCK } from '../../../project';
import { cellNumber, mark, t, type Marked } from '../../locale';
import { Problems } from '../../shared/cell-list';
import { moneyText } from '../../shared/quantities';
import { useStore } from '../../shared/store';
import { TabFrame, WhenRead } from '../../shared/tab-frame';
import { useTab } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import type { BuyingSheets } from './buying-sheets';
import { BuyingStore, type SheetToAdd } from './buying-store';
import { trimmed } from './buying-words';
import { ListSection, SumsSection } from './list-section';
import { listByPlans } from './made-plans';
import { PlanSection } from './plan-section';
import { PlanStore } from './plan-store';
import { useStyles } from './styles';

export function Body({ pane }: { readonly pane: PaneContext }) {
  const [store, state] = useTab(() => new BuyingStore(pane));
  const [plans] = useState(() => new PlanStore(pane));
  useEffect(() => () => plans.stop(), [plans]);
  const { made } = useStore(plans);
  const { sheets, message } = state;
  const shown = useMemo(() => sheets && { ...sheets, list: listByPlans(sheets, made) }, [sheets, made]);
  const styles = useStyles();
  return (
    <TabFrame store={store} message={message}>
      <div className={styles.body} tabIndex={-1}>
        <WhenRead store={store} state={state}>
          {() => shown && <Shown store={store} plans={plans} sheets={shown} />}
        </WhenRead>
      </div>
    </TabFrame>
  );
}

function Shown({
  store,
  plans,
  sheets,
}: {
  readonly store: BuyingStore;
  readonly plans: PlanStore;
  readonly sheets: BuyingSheets;
}) {
  const styles = useStyles();
  const { list, prices } = sheets;
  const anything = list.orders.length + list.met.length + list.unpriced.length > 0;
  return (
    <>
      {prices !== 'read' && <p className={styles.caution}>{t(UNPRICED[prices])}</p>}
      {anything || list.spent > 0 ? (
        <SumsSection list={list} />
      ) : (
        <>
          <h2 className={styles.heading}>{t('Nothing to buy yet')}</h2>
          <p className={styles.text}>
            {t(
              'The list comes from the sheet Parts, columns Price item and Use, and from the rivets of the sheet Joints. The sample wing has both.',
            )}
          </p>
        </>
      )}
      {anything && <ListSection sheets={sheets} />}
      {sheets.parts && <PlanSection store={plans} buying={store} sheets={sheets} />}
      <TermsSection store={store} sheets={sheets} />
      <Problems store={store} problems={sheets.problems} />
    </>
  );
}

/** Said above what has no price, by what there is of a price list. */
const UNPRICED: Readonly<Record<Exclude<BuyingSheets['prices'], 'read'>, Marked>> = {
  none: mark('No price list in this workbook yet. The tab Prices adds one.'),
  empty: mark('The price list is empty. Type the first item in the tab Prices.'),
  unread: mark('No row of the price list can be read. The tab Prices says what to fix.'),
};

const WHAT: readonly (readonly [SheetToAdd, Marked])[] = [
  [BUYING_SHEET, mark('your currency, rates with their dates, spare, freight and cut charges')],
  [PURCHASES.sheet, mark('what you have bought: it is taken off the list and counted as spent')],
  [STOCK.sheet, mark('sheets, bars and leftovers on the shelf; a cutting plan uses them first')],
];

/** What the list is computed from, and the sheets that hold that. */
function TermsSection({ store, sheets }: { readonly store: BuyingStore; readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  const { terms, hasTerms } = sheets;
  const there: Readonly<Record<string, boolean>> = {
    [BUYING_SHEET]: hasTerms,
    [PURCHASES.sheet]: sheets.purchases !== undefined,
    [STOCK.sheet]: sheets.stock !== undefined,
  };
  return (
    <section className={styles.section} aria-labelledby="buying-terms">
      <h2 id="buying-terms" className={styles.heading}>
        {t('What it rests on')}
      </h2>
      <p className={styles.text}>
        {[spareWords(terms, hasTerms), ...rateWords(terms), ...chargeWords(terms)].join(' ')}
      </p>
      <ul className={styles.sheets}>
        {WHAT.map(([name, what]) => (
          <li key={name}>
            {there[name] ? (
              <Button
                size="small"
                onClick={() => void store.select({ sheet: name, row: 0, column: 0, rows: 1, columns: 1 })}
              >
                {t('Go to {sheet}', { sheet: name })}
              </Button>
            ) : (
              <Button size="small" onClick={() => void store.addSheet(name)}>
                {t('Add the sheet {sheet}', { sheet: name })}
              </Button>
            )}{' '}
            <span>{t(what)}</span>
          </li>
        ))}
      </ul>
      <p className={styles.quiet}>
        {t(
          'The leftover of a sheet you bought is not a second purchase. On the sheet Stock, mark only what was not bought for this project.',
        )}
      </p>
    </section>
  );
}

function spareWords({ spares }: ShoppingTerms, own: boolean): string {
  const shares = HARDWARE.map((kind) => `${kind} ${trimmed(100 * spares[kind], 1)} %`).join(', ');
  return own
    ? t('Spare on top of the need: {shares}.', { shares })
    : t('Spare on top of the need (common practice, no source): {shares}.', { shares });
}

const rateWords = ({ rates, currency: own }: ShoppingTerms): string[] =>
  rates.map(({ currency, rate, date }) => {
    const values = { currency, rate: cellNumber(rate), own };
    return date
      ? t('1 {currency} = {rate} {own}, {date}.', { ...values, date })
      : t('1 {currency} = {rate} {own}, no date.', values);
  });

const chargeWords = ({ suppliers, currency }: ShoppingTerms): string[] =>
  suppliers
    .filter(({ freight, cuts }) => freight > 0 || cuts > 0)
    .map(({ supplier, freight, cutCharge, cuts }) => {
      const values = { supplier, freight: moneyText(freight, currency), cuts, charge: moneyText(cutCharge, currency) };
      return cuts > 0
        ? t('{supplier}: freight {freight}, {cuts, plural, one {# cut} other {# cuts}} at {charge}.', values)
        : t('{supplier}: freight {freight}.', values);
    });
