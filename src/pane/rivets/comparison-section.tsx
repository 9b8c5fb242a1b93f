/** The options side by side, as a table and as points of weight and cost. */
import { Button, mergeClasses } from '@fluentui/react-components';
import type { Compared, OptionResult } from '../../core/rivet-choice';
import { costPicture } from '../../pictures';
import { Figure } from '../picture';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';
import { amount, amountDifference, pounds, poundsDifference, refusalWords, savedWords, strengthWords } from './words';

const currencyOf = (results: readonly OptionResult[]): string => results.find((one): one is Compared => one.possible && one.material.currency !== '')?.material.currency ?? '';

export function ComparisonSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { results, options, picked } = store.state;
  const currency = currencyOf(results);
  return (
    <>
      <section className={styles.section} aria-labelledby="rivets-options">
        <h2 id="rivets-options" className={styles.heading}>
          Options
        </h2>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col" data-number="">
                Installed (lb)
              </th>
              <th scope="col" data-number="">
                Differ&shy;ence (lb)
              </th>
              <th scope="col" data-number="">
                Total{currency && ` (${currency})`}
              </th>
              <th scope="col" data-number="">
                Differ&shy;ence{currency && ` (${currency})`}
              </th>
            </tr>
          </thead>
          {results.map((result, index) => (
            <tbody key={index} data-item="">
              <tr>
                <th scope="rowgroup" colSpan={4}>
                  <Button size="small" appearance="subtle" className={styles.name} aria-pressed={index === picked} onClick={() => store.pick(index)}>
                    {result.name}
                  </Button>
                  {index === 0 && <span className={styles.word}>set against</span>}
                  {index === picked && <span className={styles.word}>shown below</span>}
                </th>
              </tr>
              {result.possible ? <Numbers result={result} /> : <RefusedRow result={result} />}
            </tbody>
          ))}
        </table>
        {results.length === 0 && <p className={styles.text}>The sheet has no option that can be read.</p>}
      </section>
      <Scatter store={store} currency={currency} nowAt={options.findIndex(({ kind }) => kind.style === 'designed')} />
    </>
  );
}

function Numbers({ result }: { readonly result: Compared }) {
  const styles = useStyles();
  const { material, tools, labour, hours, toolCost } = result;
  const { currency } = material;
  const words = savedWords(result);
  const bought = tools.reduce((sum, tool) => sum + tool.bought, 0);
  return (
    <>
      <tr>
        <td data-number="">{pounds(result.installed)}</td>
        <td data-number="">{poundsDifference(result.weightDifference)}</td>
        <td data-number="">{amount(result.total, currency)}</td>
        <td data-number="">{amountDifference(result.costDifference, currency)}</td>
      </tr>
      <tr>
        <td colSpan={4} data-below="">
          {result.rivets} rivets, as bought {pounds(result.bought)} lb. Material {amount(material.cost, currency)}, labour {amount(labour, currency)} ({hours.toFixed(1)} h), {bought === 0 ? 'no tool to buy' : `${bought} ${bought === 1 ? 'tool' : 'tools'} ${amount(toolCost, currency)}`}. {strengthWords(result)}
          {words !== undefined && <strong> {words[0]!.toUpperCase() + words.slice(1)}.</strong>}
          {material.missing.length > 0 && (
            <span className={mergeClasses(styles.note, styles.wrong)}>
              No total. {without(result)}
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
  return names.length > 0 ? `The price list does not price ${names.join(', ')}.` : `${missing.join('; ')}.`;
}

function RefusedRow({ result }: { readonly result: Extract<OptionResult, { possible: false }> }) {
  const styles = useStyles();
  const [first, ...others] = result.refusals;
  return (
    <tr>
      <td colSpan={4} data-below="">
        <span className={mergeClasses(styles.note, styles.wrong)}>
          Does not go: {first!.joint.name}: {refusalWords(first!)}
          {others.length > 0 && `, and ${others.length} more ${others.length === 1 ? 'joint' : 'joints'}`}.
        </span>
      </td>
    </tr>
  );
}

function Scatter({ store, currency, nowAt }: { readonly store: RivetsStore; readonly currency: string; readonly nowAt: number }) {
  const styles = useStyles();
  const { results } = store.state;
  const drawn = results.flatMap((one, index) => (one.possible && one.total !== undefined && one.material.currency === currency ? [{ id: String(index), name: one.name, weight: one.installed, cost: one.total, current: index === nowAt }] : []));
  const left = results.filter((_one, index) => !drawn.some(({ id }) => id === String(index))).map(({ name }) => name);
  if (drawn.length === 0) return null;
  const table = (
    <table className={mergeClasses(styles.table, styles.lengths)}>
      <thead>
        <tr>
          <th scope="col">Option</th>
          <th scope="col" data-number="">
            lb
          </th>
          <th scope="col" data-number="">
            {currency || 'cost'}
          </th>
        </tr>
      </thead>
      <tbody>
        {drawn.map(({ id, name, weight, cost }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            <td data-number="">{pounds(weight)}</td>
            <td data-number="">{amount(cost, currency)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
  return (
    <>
      <Figure title="Weight against cost" table={table} draw={(options) => costPicture({ options: drawn, currency: currency || 'money' }, options)} onPick={(id) => store.pick(Number(id))} />
      {left.length > 0 && <p className={styles.quiet}>Not drawn, for want of a total: {left.join(', ')}.</p>}
    </>
  );
}
