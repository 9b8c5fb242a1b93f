/** The view 'Buying': what is left to buy and at which supplier, what it costs, what is spent. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useEffect, useMemo, useState } from 'react';
import type { UnitSystem } from '../../../core/quantity';
import {
  HARDWARE,
  type ShoppingLine,
  type ShoppingList,
  type ShoppingTerms,
  type SupplierOrder,
} from '../../../core/shopping';
import { BUYING_SHEET, PURCHASES, STOCK } from '../../../project';
import { cellNumber, mark, t, type Marked } from '../../locale';
import { Problems } from '../../shared/cell-list';
import { amountText, moneyText, quotedText } from '../../shared/quantities';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import { useStore } from '../../shared/store';
import { TabFrame, WhenRead } from '../../shared/tab-frame';
import { useTab } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import type { BuyingSheets } from './buying-sheets';
import { BuyingStore, type SheetToAdd } from './buying-store';
import { leftWords, needWords, planWords, trimmed, unitsText } from './buying-words';
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

// The shopping list by supplier, and what it comes to

function SumsSection({ list }: { readonly list: ShoppingList }) {
  const styles = useStyles();
  const { currency, spent, toBuy, total, leftOverValue, withoutRate } = list;
  const rows = [
    { label: t('Spent so far'), value: spent },
    { label: t('Left to buy'), value: toBuy },
    { label: t('Together'), value: total, total: true },
    { label: t('Worth of what will be left over, at the list’s prices'), value: leftOverValue },
  ];
  return (
    <section className={styles.section} aria-labelledby="buying-sums">
      <h2 id="buying-sums" className={styles.heading}>
        {currency ? t('Money, {currency}', { currency }) : t('Money')}
      </h2>
      <ScrollTable className={mergeClasses(styles.table, styles.sums)}>
        <tbody>
          {rows.map(({ label, value, total: sum }) => (
            <tr key={label} data-total={sum ? '' : undefined}>
              <th scope="row">{label}</th>
              <td data-number="">{amountText(value, currency)}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {withoutRate.length > 0 && (
        <p className={mergeClasses(styles.text, styles.wrong)}>
          {t('Not counted, because the sheet Buying has no rate for it: {what}.', {
            what: withoutRate
              .map(({ what, amount: some, currency: code }) => `${what} (${moneyText(some, code)})`)
              .join(', '),
          })}
        </p>
      )}
    </section>
  );
}

function ListSection({ sheets }: { readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  const { list, silent, units } = sheets;
  return (
    <section className={styles.section} aria-labelledby="buying-list">
      <h2 id="buying-list" className={styles.heading}>
        {t('Shopping list')}
      </h2>
      {list.orders.length === 0 && <p className={styles.text}>{t('Nothing left to buy.')}</p>}
      {list.orders.map((order) => (
        <Order key={order.supplier} order={order} currency={list.currency} units={units} />
      ))}
      {list.orders.length > 1 && (
        <p className={styles.grand}>
          <span>{t('All suppliers')}</span> <span>{moneyText(list.toBuy, list.currency)}</span>
        </p>
      )}
      {list.unpriced.length > 0 && (
        <>
          <h3 className={styles.subheading}>{t('Not in the price list')}</h3>
          <ul className={styles.list}>
            {list.unpriced.map(({ item, message }) => (
              <li key={item}>
                {item}: <span lang="en">{message}</span>
              </li>
            ))}
          </ul>
        </>
      )}
      {sheets.groups.length > 0 && (
        <p className={styles.quiet}>
          {t(
            'Sheets and bars are counted by their cutting plan if one was made here for these parts; otherwise by area or length, with the spare.',
          )}
        </p>
      )}
      {silent > 0 && (
        <p className={styles.quiet}>
          {t(
            '{count, plural, one {# row of the parts list has no price item or no quantity: left out here.} other {# rows of the parts list have no price item or no quantity: left out here.}}',
            { count: silent },
          )}
        </p>
      )}
      {list.met.length > 0 && (
        <>
          <h3 className={styles.subheading}>{t('At hand already')}</h3>
          <ul className={styles.list}>
            {list.met.map((line, index) => (
              <li key={index}>
                {line.item}: {clauses(line, list.currency, units)}. {planWords(line, units)}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

interface InTerms {
  readonly currency: string;
  readonly units: UnitSystem;
}

function Order({
  order: { supplier, lines, goods, freight, cutting, total },
  currency,
  units,
}: { readonly order: SupplierOrder } & InTerms) {
  const styles = useStyles();
  return (
    <ScrollTable className={styles.table}>
      <caption className={styles.caption}>{supplier || t('No supplier named')}</caption>
      <TableHead
        heads={[
          t('Buy'),
          { number: t('Price of one') },
          { number: currency ? t('Cost ({currency})', { currency }) : t('Cost') },
        ]}
      />
      {lines.map((line, index) => (
        <Line key={index} line={line} currency={currency} units={units} />
      ))}
      <tbody data-sums="">
        {(freight > 0 || cutting > 0) && <Sum label={t('Goods')} value={amountText(goods, currency)} />}
        {freight > 0 && <Sum label={t('Freight')} value={amountText(freight, currency)} />}
        {cutting > 0 && <Sum label={t('Cuts')} value={amountText(cutting, currency)} />}
        <Sum
          label={supplier ? t('Total, {supplier}', { supplier }) : t('Total, no supplier')}
          value={amountText(total, currency)}
          total
        />
      </tbody>
    </ScrollTable>
  );
}

const Sum = ({ label, value, total }: { readonly label: string; readonly value: string; readonly total?: boolean }) => (
  <tr data-total={total ? '' : undefined}>
    <th scope="row" colSpan={2}>
      {label}
    </th>
    <td data-number="">{value}</td>
  </tr>
);

function Line({ line, currency, units }: { readonly line: ShoppingLine } & InTerms) {
  const { item, purchase, uses, moreCostsLess } = line;
  if (!purchase) return null;
  return (
    <tbody data-item="">
      <tr>
        <th scope="rowgroup" colSpan={3} data-name="">
          {item}
        </th>
      </tr>
      <tr>
        <td>{unitsText(purchase.units, purchase.offer.row.soldBy)}</td>
        <td data-number="">
          {line.currency !== currency && line.currency !== ''
            ? `${quotedText(purchase.price, line.currency)} ${line.currency}`
            : quotedText(purchase.price, currency)}
        </td>
        <td data-number="">{line.cost === undefined ? t('no rate') : amountText(line.cost, currency)}</td>
      </tr>
      <tr>
        <td colSpan={3} data-below="">
          {t('{components}: {quantities}.', {
            components: uses.join(', '),
            quantities: clauses(line, currency, units),
          })}
          {line.planned && ` ${planWords(line, units)}`}
          {moreCostsLess && ` ${t('Buys more than needed, because that costs less.')}`}
        </td>
      </tr>
    </tbody>
  );
}

const clauses = (line: ShoppingLine, currency: string, units: UnitSystem): string =>
  [needWords(line, units), leftWords(line, currency, units)].filter(Boolean).join('; ');
