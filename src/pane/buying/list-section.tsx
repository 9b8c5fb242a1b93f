/** The shopping list by supplier, and what it comes to. */
import { mergeClasses } from '@fluentui/react-components';
import { formatMoney } from '../../core/price';
import type { ShoppingLine, ShoppingList, SupplierOrder } from '../../core/shopping';
import type { BuyingSheets } from './sheets';
import { useStyles } from './styles';
import { amount, needWords, quantityText, unitsText } from './words';

export function SumsSection({ list }: { readonly list: ShoppingList }) {
  const styles = useStyles();
  const { currency, spent, toBuy, total, leftOverValue, withoutRate } = list;
  const rows = [['Spent so far', spent], ['Left to buy', toBuy], ['Together', total]] as const;
  return (
    <section className={styles.section} aria-labelledby="buying-sums">
      <h2 id="buying-sums" className={styles.heading}>
        Money{currency && `, ${currency}`}
      </h2>
      <table className={mergeClasses(styles.table, styles.sums)}>
        <tbody>
          {rows.map(([label, value]) => (
            <tr key={label} data-total={label === 'Together' ? '' : undefined}>
              <th scope="row">{label}</th>
              <td data-number="">{amount(value, currency)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">Worth of what will be left over, at the list’s prices</th>
            <td data-number="">{amount(leftOverValue, currency)}</td>
          </tr>
        </tbody>
      </table>
      {withoutRate.length > 0 && (
        <p className={mergeClasses(styles.text, styles.wrong)}>
          Not counted, for want of a rate on the sheet Buying: {withoutRate.map(({ what, amount: some, currency: code }) => `${what} (${formatMoney(some, code)})`).join(', ')}.
        </p>
      )}
    </section>
  );
}

export function ListSection({ sheets }: { readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  const { list, silent } = sheets;
  return (
    <section className={styles.section} aria-labelledby="buying-list">
      <h2 id="buying-list" className={styles.heading}>
        Shopping list
      </h2>
      {list.orders.length === 0 && <p className={styles.text}>Nothing is left to buy of what the price list has.</p>}
      {list.orders.map((order) => (
        <Order key={order.supplier} order={order} currency={list.currency} />
      ))}
      {list.orders.length > 1 && (
        <p className={styles.grand}>
          <span>All suppliers</span> <span>{formatMoney(list.toBuy, list.currency)}</span>
        </p>
      )}
      {list.unpriced.length > 0 && (
        <>
          <h3 className={styles.subheading}>Not in the price list</h3>
          <ul className={styles.list}>
            {list.unpriced.map(({ item, message }) => (
              <li key={item}>
                {item}: {message}
              </li>
            ))}
          </ul>
        </>
      )}
      {silent > 0 && <p className={styles.quiet}>{`${silent} ${silent === 1 ? 'row of the parts list names' : 'rows of the parts list name'} no price item or not how much of it is used: left out here.`}</p>}
      {list.met.length > 0 && (
        <>
          <h3 className={styles.subheading}>At hand already</h3>
          <ul className={styles.list}>
            {list.met.map((line) => (
              <li key={line.item}>
                {line.item}: {needWords(line)}
                {leftWords(line, list.currency)}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Order({ order, currency }: { readonly order: SupplierOrder; readonly currency: string }) {
  const styles = useStyles();
  const { supplier, lines, goods, freight, cutting, total } = order;
  return (
    <table className={mergeClasses(styles.table, styles.order)}>
      <caption className={styles.caption}>{supplier || 'No supplier named'}</caption>
      <thead>
        <tr>
          <th scope="col">Buy</th>
          <th scope="col" data-number="">
            Price of one
          </th>
          <th scope="col" data-number="">
            Cost{currency && ` (${currency})`}
          </th>
        </tr>
      </thead>
      {lines.map((line) => (
        <Line key={line.item} line={line} currency={currency} />
      ))}
      <tbody data-sums="">
        {(freight > 0 || cutting > 0) && <Sum label="Goods" value={amount(goods, currency)} />}
        {freight > 0 && <Sum label="Freight" value={amount(freight, currency)} />}
        {cutting > 0 && <Sum label="Cuts" value={amount(cutting, currency)} />}
        <Sum label={`Total, ${supplier || 'no supplier'}`} value={amount(total, currency)} total />
      </tbody>
    </table>
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

function Line({ line, currency }: { readonly line: ShoppingLine; readonly currency: string }) {
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
        <td data-number="">{line.currency !== currency && line.currency !== '' ? formatMoney(purchase.price, line.currency) : amount(purchase.price, currency)}</td>
        <td data-number="">{line.cost === undefined ? 'no rate' : amount(line.cost, currency)}</td>
      </tr>
      <tr>
        <td colSpan={3} data-below="">
          {uses.join(', ')}: {needWords(line)}
          {leftWords(line, currency)}
          {moreCostsLess && '. More is bought than needed because it costs less'}.
        </td>
      </tr>
    </tbody>
  );
}

const leftWords = ({ leftOver, leftOverValue, measure, needed }: ShoppingLine, currency: string): string =>
  leftOver > needed * 1e-9 ? `; left over ${quantityText(leftOver, measure)}${leftOverValue === undefined ? '' : `, worth ${amount(leftOverValue, currency)}`}` : '';
