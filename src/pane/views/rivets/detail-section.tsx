/** One option: what is bought for it, and its rivets joint by joint. */
import { mergeClasses, Select } from '@fluentui/react-components';
import { findingsText, FIRST_LOOK, PULL_TYPE } from '../../../core/fastener';
import type { Quantities } from '../../../core/quantity';
import { SHEAR_CAUTION, type Compared, type JointLine, type Tool } from '../../../core/rivet-choice';
import { exceptionAt, USUAL_OPTIONS, type RivetJoint } from '../../../project';
import { t } from '../../locale';
import { amountText, moneyText, sayIn } from '../../shared/quantities';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';
import { firstLookWords, refusalWords, shearWords, weight } from './rivet-words';

/** lb/in³, as the comparison takes it for any sheet. */
const HOLE_DENSITY = 0.1;

/** A pitch under three diameters is too close: AC 43.13-1B ¶4-57c. */
const LEAST_PITCH = 3;

export function DetailSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { results, picked, joints, sheets } = store.state;
  const say = sayIn(sheets.units);
  const result = results[picked];
  if (!result) return null;
  const lines = result.possible ? result.lines : undefined;
  return (
    <section className={styles.section} aria-labelledby="rivets-detail">
      <h2 id="rivets-detail" className={styles.heading}>
        {result.name}
      </h2>
      {result.possible && <Shopping result={result} />}
      <h3 className={styles.subheading}>{t('Joint by joint')}</h3>
      <p className={styles.caution} lang="en">
        {lines?.some(({ rivet }) => rivet.kind === 'blind') ? PULL_TYPE : ''} {SHEAR_CAUTION}
      </p>
      {!sheets.options && (
        <p className={styles.quiet}>{t('Rivets can be mixed by joint when there is a sheet of options, above.')}</p>
      )}
      <ScrollTable className={styles.table}>
        <thead>
          <tr>
            <th scope="col" style={{ width: '46%' }}>
              {t('Rivet')}
            </th>
            <th scope="col" data-number="">
              {t('Number')}
            </th>
            <th scope="col" data-number="">
              {t('Installed ({unit})', { unit: say.sign('weight') })}
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
                  <td data-number="">{weight(line.installed, say)}</td>
                </tr>
              )}
              <tr>
                <td colSpan={3} data-below="">
                  {line && shearWords(line, say)} {line && pitchWords(line, say)}
                  {line?.firstLook && (
                    <span className={styles.note}>
                      {firstLookWords(line.firstLook, say)}{' '}
                      <span lang="en">
                        ({line.firstLook.source}; {FIRST_LOOK})
                      </span>
                    </span>
                  )}
                  {line && !line.passes && (
                    <span className={mergeClasses(styles.note, styles.wrong)}>
                      {t('No longer passes:')} <span lang="en">{findingsText(line.findings)}</span>
                    </span>
                  )}
                  {refused && (
                    <span className={mergeClasses(styles.note, styles.wrong)}>
                      {t('Cannot be used: {why}.', { why: refusalWords(refused, say) })}
                    </span>
                  )}
                  <JointChoice store={store} joint={joint} />
                </td>
              </tr>
            </tbody>
          );
        })}
      </ScrollTable>
      {result.possible && (
        <p className={styles.quiet}>
          {t(
            'Holes drilled for these rivets take away {weight} of sheet (at {density} if a joint does not say its material), which flat patterns still count. Smaller holes leave more sheet, so the airplane saves less than the rivets do. RIVET.COMPARE gives the same numbers in the sheet.',
            { weight: say.say(result.holeMetal, 'weight', 3), density: say.say(HOLE_DENSITY, 'density', 1) },
          )}
        </p>
      )}
    </section>
  );
}

function pitchWords({ closerPitch, rivet, joint }: JointLine, say: Quantities): string {
  if (closerPitch === undefined) return '';
  const least = LEAST_PITCH * rivet.nominal;
  const length = (value: number): string => say.say(value, 'length', 3);
  const words = t('In the same rows the pitch would be {closer} for {pitch}.', {
    closer: length(closerPitch),
    pitch: length(joint.pitch!),
  });
  return closerPitch < least
    ? `${words} ${t('That is under 3D = {least} (AC 43.13-1B ¶4-57c). They need another row.', { least: length(least) })}`
    : words;
}

function Shopping({ result: { material, tools } }: { readonly result: Compared }) {
  const styles = useStyles();
  return (
    <>
      <ScrollTable className={mergeClasses(styles.table, styles.lengths)}>
        <TableHead heads={[t('Length'), { number: t('Needed') }, t('To buy'), { number: t('Cost') }]} />
        <tbody>
          {material.lengths.map(({ rivet, count, purchase, currency }) => (
            <tr key={rivet.designation}>
              <th scope="row">{rivet.designation}</th>
              <td data-number="">{count}</td>
              <td>{purchase ? saleWords(purchase.units, purchase.offer.row.soldBy, purchase.quantity) : ''}</td>
              <td data-number="">
                {purchase ? amountText(purchase.cost, currency) : <span className={styles.wrong}>{t('no price')}</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {tools.length > 0 && (
        <ul className={styles.list} aria-label={t('Tools')}>
          {tools.map(({ tool, bought, cost, rivets }, index) => (
            <li key={index}>{toolWords(tool, rivets, bought, moneyText(cost, material.currency))}</li>
          ))}
        </ul>
      )}
    </>
  );
}

function toolWords(tool: Tool, rivets: number, bought: number, money: string): string {
  const values = { tool: tool.name, rivets, bought, money };
  if (bought === 0) return t('{tool}, {rivets, plural, one {# rivet} other {# rivets}}: owned, nothing to buy', values);
  return tool.owned
    ? t(
        '{tool}, {rivets, plural, one {# rivet} other {# rivets}}: {bought, number} to buy besides the owned one, {money}',
        values,
      )
    : t('{tool}, {rivets, plural, one {# rivet} other {# rivets}}: {bought, number} to buy, {money}', values);
}

const saleWords = (units: number, soldBy: string, pieces: number): string =>
  soldBy === 'each' ? String(units) : `${units} × ${soldBy} (${Math.floor(pieces + 1e-6)})`;

/** Other rivets at this joint, and whether a bar can be held behind them. */
function JointChoice({ store, joint }: { readonly store: RivetsStore; readonly joint: RivetJoint }) {
  const styles = useStyles();
  const { sheets, options, picked } = store.state;
  const option = options[picked];
  const own = sheets.options && option ? exceptionAt(sheets.options.exceptions, option.name, joint) : undefined;
  const kinds = [
    ...new Set([
      ...USUAL_OPTIONS.map(([, kind]) => kind),
      ...options.map(({ text }) => text),
      ...(own ? [own.text] : []),
    ]),
  ];
  return (
    <span className={styles.choice}>
      {sheets.options?.exceptionList && option && (
        <Select
          size="small"
          className={styles.choiceField}
          aria-label={t('Rivets of {joint}', { joint: joint.name })}
          value={own?.text ?? ''}
          onChange={(_event, { value }) => void store.except(joint, value)}
        >
          <option value="">{t('as the option: {rivets}', { rivets: option.text })}</option>
          {kinds.map((kind) => (
            <option key={kind}>{kind}</option>
          ))}
        </Select>
      )}
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={joint.oneSide}
          onChange={(event) => void store.setAccess(joint, event.target.checked)}
          aria-label={t('One side only of {joint}', { joint: joint.name })}
        />
        {t('One side only')}
      </label>
    </span>
  );
}
