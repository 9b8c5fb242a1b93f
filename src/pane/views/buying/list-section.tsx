/** The shopping list by supplier, and what it comes to. */
import { mergeClasses } from '@fluentui/react-components';
import type { UnitSystem } from '../../../core/quantity';
import type { ShoppingLine, ShoppingList, SupplierOrder } from '../../../core/shopping';
import { t } from '../../locale';
import { amountText, moneyText, quotedText } from '../../shared/quantities';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BuyingSheets } from './buying-sheets';
import { useStyles } from './styles';
import { leftWords, needWords, planWords, unitsText } from './buying-words';

export function SumsSection({ list }: { readonly list: ShoppingList }) {
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

export function ListSection({ sheets }: { readonly sheets: BuyingSheets }) {
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
