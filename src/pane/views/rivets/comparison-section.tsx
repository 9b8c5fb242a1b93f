/** The options side by side, as a table and as points of weight and cost. */
import { Button, mergeClasses } from '@fluentui/react-components';
import type { Compared, OptionResult } from '../../../core/rivet-choice';
import type { Quantities } from '../../../core/quantity';
import { costPicture } from '../../../pictures';
import { t, writeNumber } from '../../locale';
import { amountText, moneyText, sayIn } from '../../shared/quantities';
import { Figure } from '../../shared/picture';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';
import {
  amountDifference,
  failingWords,
  refusalWords,
  savedWords,
  strengthWords,
  weight,
  weightDifference,
} from './rivet-words';

export function ComparisonSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { results, options, picked, sheets } = store.state;
  const say = sayIn(sheets.units);
  const currency =
    results.find((one): one is Compared => one.possible && one.material.currency !== '')?.material.currency ?? '';
  return (
    <>
      <section className={styles.section} aria-labelledby="rivets-options">
        <h2 id="rivets-options" className={styles.heading}>
          {t('Options')}
        </h2>
        <ScrollTable className={styles.table}>
          <TableHead
            heads={[
              { number: t('Installed ({unit})', { unit: say.sign('weight') }) },
              { number: t('Differ\u00adence ({unit})', { unit: say.sign('weight') }) },
              { number: t('Hours') },
              { number: currency ? t('Total ({unit})', { unit: currency }) : t('Total') },
              { number: currency ? t('Differ\u00adence ({unit})', { unit: currency }) : t('Differ\u00adence') },
            ]}
          />
          {results.map((result, index) => (
            <tbody key={index} data-item="">
              <tr>
                <th scope="rowgroup" colSpan={5}>
                  <Button
                    size="small"
                    appearance="subtle"
                    className={styles.name}
                    aria-pressed={index === picked}
                    onClick={() => store.pick(index)}
                  >
                    {result.name}
                  </Button>
                  {index === 0 && <span className={styles.word}>{t('set against')}</span>}
                  {index === picked && <span className={styles.word}>{t('shown below')}</span>}
                </th>
              </tr>
              {result.possible ? <Numbers result={result} say={say} /> : <RefusedRow result={result} say={say} />}
            </tbody>
          ))}
        </ScrollTable>
        {results.length === 0 && <p className={styles.text}>{t('The sheet has no option that can be read.')}</p>}
      </section>
      <Scatter store={store} currency={currency} nowAt={options.findIndex(({ kind }) => kind.style === 'designed')} />
    </>
  );
}

function Numbers({ result, say }: { readonly result: Compared; readonly say: Quantities }) {
  const styles = useStyles();
  const { material, tools, labour, toolCost } = result;
  const failing = failingWords(result);
  const { currency } = material;
  const words = savedWords(result, say);
  const bought = tools.reduce((sum, tool) => sum + tool.bought, 0);
  return (
    <>
      <tr>
        <td data-number="">{weight(result.installed, say)}</td>
        <td data-number="">{weightDifference(result.weightDifference, say)}</td>
        <td data-number="">{writeNumber(result.hours, 1)}</td>
        <td data-number="">{amountText(result.total, currency)}</td>
        <td data-number="">{amountDifference(result.costDifference, currency)}</td>
      </tr>
      <tr>
        <td colSpan={5} data-below="">
          {t('{count, plural, one {# rivet} other {# rivets}}, as bought {weight}.', {
            count: result.rivets,
            weight: `${weight(result.bought, say)} ${say.sign('weight')}`,
          })}{' '}
          {t('Material {material}, labour {labour}.', {
            material: amountText(material.cost, currency),
            labour: amountText(labour, currency),
          })}{' '}
          {bought === 0
            ? t('No tool to buy.')
            : t('{count, plural, one {# tool} other {# tools}} to buy: {money}.', {
                count: bought,
                money: moneyText(toolCost, currency),
              })}{' '}
          {strengthWords(result)}
          {words !== undefined && <strong> {words}</strong>}
          {failing !== undefined && <span className={mergeClasses(styles.note, styles.wrong)}>{failing}</span>}
          {material.missing.length > 0 && (
            <span className={mergeClasses(styles.note, styles.wrong)}>
              {t('No total.')} {without(result)}
            </span>
          )}
        </td>
      </tr>
    </>
  );
}

/** The lengths without a price in one sentence; another reason as it stands. */
function without({ material: { lengths, missing } }: Compared): string {
  const names = lengths.filter(({ purchase }) => !purchase).map(({ rivet }) => rivet.designation);
  return names.length > 0 ? t('No price for {names}.', { names: names.join(', ') }) : `${missing.join('; ')}.`;
}

function RefusedRow({
  result,
  say,
}: {
  readonly result: Extract<OptionResult, { possible: false }>;
  readonly say: Quantities;
}) {
  const styles = useStyles();
  const [first, ...others] = result.refusals;
  return (
    <tr>
      <td colSpan={5} data-below="">
        <span className={mergeClasses(styles.note, styles.wrong)}>
          {t('Cannot be used at {joint}: {why}.', { joint: first!.joint.name, why: refusalWords(first!, say) })}
          {others.length > 0 &&
            ` ${t('The same at {count, plural, one {# other joint} other {# other joints}}.', { count: others.length })}`}
        </span>
      </td>
    </tr>
  );
}

function Scatter({
  store,
  currency,
  nowAt,
}: {
  readonly store: RivetsStore;
  readonly currency: string;
  readonly nowAt: number;
}) {
  const styles = useStyles();
  const { results, sheets } = store.state;
  const say = sayIn(sheets.units);
  const drawn = results.flatMap((one, index) =>
    one.possible && one.total !== undefined && one.material.currency === currency
      ? [{ id: String(index), name: one.name, weight: one.installed, cost: one.total, current: index === nowAt }]
      : [],
  );
  const left = results.filter((_one, index) => !drawn.some(({ id }) => id === String(index))).map(({ name }) => name);
  if (drawn.length === 0) return null;
  const table = (
    <ScrollTable className={mergeClasses(styles.table, styles.lengths)}>
      <TableHead heads={[t('Option'), { number: say.sign('weight') }, { number: currency || t('cost') }]} />
      <tbody>
        {drawn.map(({ id, name, weight: installed, cost }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            <td data-number="">{weight(installed, say)}</td>
            <td data-number="">{amountText(cost, currency)}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
  return (
    <>
      <Figure
        title={t('Weight against cost')}
        table={table}
        draw={(options) => costPicture({ options: drawn, currency: currency || t('money'), quantities: say }, options)}
        onPick={(id) => store.pick(Number(id))}
      />
      {left.length > 0 && (
        <p className={styles.quiet}>
          {t('Not drawn, because the total is not known: {names}.', { names: left.join(', ') })}
        </p>
      )}
    </>
  );
}
