/** One option: what is bought for it, and its rivets joint by joint. */
import { mergeClasses, Select } from '@fluentui/react-components';
import { formatMoney } from '../../core/price';
import { PULL_TYPE_CAUTION, SHEAR_CAUTION, type Compared, type JointLine } from '../../core/rivet-choice';
import { exceptionAt, USUAL_OPTIONS, type RivetJoint } from '../../workbook';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';
import { amount, pounds, refusalWords, shearWords } from './words';

/** A pitch under three diameters is too close: AC 43.13-1B ¶4-57c. */
const LEAST_PITCH = 3;

export function DetailSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { results, picked, joints } = store.state;
  const result = results[picked];
  if (!result) return null;
  const lines = result.possible ? result.lines : undefined;
  return (
    <section className={styles.section} aria-labelledby="rivets-detail">
      <h2 id="rivets-detail" className={styles.heading}>
        {result.name}
      </h2>
      {result.possible && <Shopping result={result} />}
      <h3 className={styles.subheading}>Joint by joint</h3>
      <p className={styles.caution}>
        {lines?.some(({ rivet }) => rivet.kind === 'blind') ? PULL_TYPE_CAUTION : ''} {SHEAR_CAUTION}
      </p>
      {!store.state.sheets.options && <p className={styles.quiet}>Rivets can be mixed by joint as soon as there is a sheet of options, above.</p>}
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col" style={{ width: '46%' }}>
              Rivet
            </th>
            <th scope="col" data-number="">
              Number
            </th>
            <th scope="col" data-number="">
              Installed (lb)
            </th>
          </tr>
        </thead>
        {joints.map((joint, index) => {
          const line = lines?.[index];
          const refused = result.possible ? undefined : result.refusals.find((one) => one.joint === joint);
          return (
            <tbody key={joint.row} data-item="">
              <tr>
                <th scope="rowgroup" colSpan={3}>
                  <strong>{joint.joint}</strong>
                  {store.state.component === '' && `, ${joint.component}`}
                </th>
              </tr>
              {line && (
                <tr>
                  <td>{line.rivet.designation}</td>
                  <td data-number="">{line.count}</td>
                  <td data-number="">{pounds(line.installed)}</td>
                </tr>
              )}
              <tr>
                <td colSpan={3} data-below="">
                  {line && shearWords(line)} {line && pitchWords(line)}
                  {refused && <span className={mergeClasses(styles.note, styles.wrong)}>Does not go: {refusalWords(refused)}.</span>}
                  <JointChoice store={store} joint={joint} />
                </td>
              </tr>
            </tbody>
          );
        })}
      </table>
      {result.possible && (
        <p className={styles.quiet}>
          Holes drilled for these rivets take {pounds(result.holeMetal)} lb of sheet at 0.1 lb/in³, which flat patterns still count: smaller holes leave more sheet, so that the airplane gains less than the rivets do. RIVET.COMPARE gives the same numbers in the sheet; tools are not in its total.
        </p>
      )}
    </section>
  );
}

function pitchWords({ closerPitch, rivet, joint }: JointLine): string {
  if (closerPitch === undefined) return '';
  const least = LEAST_PITCH * rivet.nominal;
  const words = `In the same rows the pitch would be ${closerPitch.toFixed(3)} in for ${joint.pitch!.toFixed(3)} in`;
  return closerPitch < least ? `${words}, under 3D = ${least.toFixed(3)} in (AC 43.13-1B ¶4-57c): they need another row.` : `${words}.`;
}

function Shopping({ result }: { readonly result: Compared }) {
  const styles = useStyles();
  const { material, tools } = result;
  return (
    <>
      <table className={mergeClasses(styles.table, styles.lengths)}>
        <thead>
          <tr>
            <th scope="col">Length</th>
            <th scope="col" data-number="">
              Needed
            </th>
            <th scope="col">To buy</th>
            <th scope="col" data-number="">
              Cost
            </th>
          </tr>
        </thead>
        <tbody>
          {material.lengths.map(({ rivet, count, purchase, currency }) => (
            <tr key={rivet.designation}>
              <th scope="row">{rivet.designation}</th>
              <td data-number="">{count}</td>
              <td>{purchase ? saleWords(purchase.units, purchase.offer.row.soldBy, purchase.quantity) : ''}</td>
              <td data-number="">{purchase ? amount(purchase.cost, currency) : <span className={styles.wrong}>no price</span>}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {tools.length > 0 && (
        <ul className={styles.list} aria-label="Tools">
          {tools.map(({ tool, bought, cost, rivets }, index) => (
            <li key={index}>
              {tool.name}, {rivets} rivets: {bought === 0 ? 'owned, nothing to buy' : `${bought} to buy${tool.owned ? ' besides the owned one' : ''}, ${formatMoney(cost, material.currency)}`}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

const saleWords = (units: number, soldBy: string, pieces: number): string => {
  const many = soldBy === 'each' ? String(units) : `${units} × ${soldBy}`;
  return `${many}${soldBy === 'each' ? '' : ` (${Math.floor(pieces + 1e-6)})`}`;
};

/** Other rivets at this joint, and whether a bar can be held behind them. */
function JointChoice({ store, joint }: { readonly store: RivetsStore; readonly joint: RivetJoint }) {
  const styles = useStyles();
  const { sheets, options, picked } = store.state;
  const option = options[picked];
  const own = sheets.options && option ? exceptionAt(sheets.options.exceptions, option.name, joint) : undefined;
  const kinds = [...new Set([...USUAL_OPTIONS.map(([, kind]) => kind), ...options.map(({ text }) => text), ...(own ? [own.text] : [])])];
  return (
    <span className={styles.choice}>
      {sheets.options?.exceptionList && option && (
        <Select size="small" className={styles.choiceField} aria-label={`Rivets of ${joint.name}`} value={own?.text ?? ''} onChange={(_event, { value }) => void store.except(joint, value)}>
          <option value="">as the option: {option.text}</option>
          {kinds.map((kind) => (
            <option key={kind}>{kind}</option>
          ))}
        </Select>
      )}
      <label className={styles.check}>
        <input type="checkbox" checked={joint.oneSide} onChange={(event) => void store.setAccess(joint, event.target.checked)} aria-label={`One side only of ${joint.name}`} />
        One side only
      </label>
    </span>
  );
}
