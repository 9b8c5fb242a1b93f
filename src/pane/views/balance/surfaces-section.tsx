/** Control surfaces on their hinges: from the parts list, from the scale, how the two agree, and the counterweight. */
import { Button, mergeClasses } from '@fluentui/react-components';
import type { Quantities, UnitSystem } from '../../../core/quantity';
import {
  newSurfacesSheet,
  SURFACES,
  type NewSurface,
  type PartsList,
  type SurfaceKey,
  type SurfaceRow,
  type SurfacesSheet,
} from '../../../project';
import { t } from '../../locale';
import { type CellKind, columnUnit, ownLabel } from '../../shared/field';
import { Problems } from '../../shared/cell-list';
import { sayIn } from '../../shared/quantities';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BalanceStore } from './balance-store';
import { agreementWords, bareIn, counterweightWords, headline, measuredWords, partsWords } from './balance-words';
import { CellField, useAdding } from './form-fields';
import { clearRowEdits } from './edits';
import { addSheets } from './new-airplane';
import { hasToBeAdded, roundIn, type NewSheets } from './new-sheets';
import { useStyles } from './styles';

const FIELDS: readonly (readonly [SurfaceKey, CellKind])[] = [
  ['surface', 'text'],
  ['component', 'text'],
  ['hinge', 'number'],
  ['raising', 'number'],
  ['lowering', 'number'],
  ['scaleArm', 'number'],
  ['ahead', 'number'],
  ['share', 'number'],
];
const caution = (): string =>
  t('How a surface has to be balanced is in the designer’s documents; paint and repairs change it.');

export function SurfacesSection({
  store,
  sheet,
  parts,
}: {
  readonly store: BalanceStore;
  readonly sheet: SurfacesSheet;
  readonly parts: PartsList | undefined;
}) {
  const styles = useStyles();
  const { form, surfaces, problems } = sheet;
  const { shown, add, stop } = useAdding(
    store,
    SURFACES,
    form,
    form.rows.map(({ row }) => row),
  );
  return (
    <>
      <p className={styles.text}>
        {t(
          'A surface level on its hinges. Its moment about the hinge line follows from its parts and from a scale under the trailing edge; the mean of raising and lowering is without friction.',
        )}{' '}
        {caution()}
      </p>
      {shown.map((row) => (
        <Surface
          key={row}
          store={store}
          sheet={sheet}
          row={row}
          surface={surfaces.find((one) => one.row === row)}
          parts={parts}
          onRemoved={stop}
        />
      ))}
      <div className={styles.buttons}>
        <Button size="small" onClick={add}>
          {t('Add surface')}
        </Button>
      </div>
      <Problems store={store} problems={problems} />
    </>
  );
}

function Surface({
  store,
  sheet: { form, units },
  row,
  surface,
  parts,
  onRemoved,
}: {
  readonly store: BalanceStore;
  readonly sheet: SurfacesSheet;
  readonly row: number;
  readonly surface: SurfaceRow | undefined;
  readonly parts: PartsList | undefined;
  onRemoved(): void;
}) {
  const styles = useStyles();
  const id = `surface-${row}`;
  const components = [...new Set(parts?.rows.map(({ component }) => component) ?? [])];
  const say = sayIn(units);
  const name = surface?.name ?? t('New surface');
  const remove = (): void => {
    onRemoved();
    if (surface)
      void store.change(
        t('Remove {name}', { name }),
        clearRowEdits(SURFACES, form, row),
        t('Removed {name}. Undo brings it back.', { name }),
      );
  };
  return (
    <section className={styles.section} aria-labelledby={id}>
      <div className={styles.head}>
        <h2 id={id} className={styles.heading}>
          {surface ? t('{surface}: {balance}', { surface: name, balance: headline(surface, say) }) : name}
        </h2>
        <Button size="small" appearance="subtle" onClick={remove} aria-label={t('Remove {name}', { name })}>
          {t('Remove')}
        </Button>
      </div>
      <div className={styles.facts}>
        {FIELDS.map(([key, kind]) => {
          const column = form.columns[key];
          const { label } = SURFACES.columns.find((one) => one.key === key)!;
          if (column === undefined) return null;
          const unit = columnUnit(SURFACES, form, key);
          const shown = ownLabel(label, unit);
          return (
            <CellField
              key={key}
              store={store}
              sheet={form.sheet}
              row={row}
              column={column}
              kind={kind}
              unit={unit}
              label={t('{label} of {row}', { label: shown, row: name })}
              shownLabel={shown}
              autoFocus={!surface && key === 'surface'}
              {...(key === 'component' && components.length > 0 ? { choices: components } : {})}
              {...(key === 'share' ? { placeholder: '100' } : {})}
            />
          );
        })}
      </div>
      {surface && <Findings surface={surface} say={say} />}
    </section>
  );
}

function Findings({ surface, say }: { readonly surface: SurfaceRow; readonly say: Quantities }) {
  const styles = useStyles();
  const { parts, hinge } = surface;
  const [weightIn, armIn, momentIn] = [bareIn(say, 'weight', 2), bareIn(say, 'length', 2), bareIn(say, 'moment', 2)];
  const lines = [
    [t('From parts'), partsWords(surface, say)],
    [t('Measured'), measuredWords(surface, say)],
    [t('Agreement'), agreementWords(surface, say)],
    [t('Counterweight'), counterweightWords(surface, say)],
  ] as const;
  return (
    <>
      <ScrollTable className={mergeClasses(styles.table, styles.results)} style={{ marginTop: '8px' }}>
        <caption className={styles.spoken}>{t('Results for {surface}', { surface: surface.name })}</caption>
        <tbody>
          {lines.map(([label, words]) => (
            <tr key={label}>
              <th scope="row" style={{ width: '92px' }}>
                {label}
              </th>
              <td>{words}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {parts && hinge !== undefined && (
        <details>
          <summary>{t('The parts and their arms from the hinge line')}</summary>
          <ScrollTable className={mergeClasses(styles.table, styles.results)}>
            <TableHead
              heads={[
                t('Part'),
                { number: t('Weight, {unit}', { unit: say.sign('weight') }) },
                { number: t('From hinge, {unit}', { unit: say.sign('length') }) },
                { number: t('Moment, {unit}', { unit: say.sign('moment') }) },
              ]}
            />
            <tbody>
              {parts.rows.map(({ row, part, weight, arm }) => (
                <tr key={row}>
                  <th scope="row">{part}</th>
                  <td data-number="">{weight === undefined ? '–' : weightIn(weight)}</td>
                  <td data-number="">{arm === undefined ? '–' : armIn(arm - hinge)}</td>
                  <td data-number="">
                    {weight === undefined || arm === undefined ? '–' : momentIn(weight * (arm - hinge))}
                  </td>
                </tr>
              ))}
            </tbody>
          </ScrollTable>
        </details>
      )}
    </>
  );
}

/** What is shown where the workbook has no sheet of control surfaces. */
export function NoSurfaces({ store, parts }: { readonly store: BalanceStore; readonly parts: PartsList | undefined }) {
  const styles = useStyles();
  const { sheet } = SURFACES;
  const make = async (): Promise<NewSheets> => {
    // Its formulas sum the parts list's columns: it is in the units of those, where there is a list.
    const units = parts?.form.units.weight?.system ?? store.state.units;
    const add = await hasToBeAdded(
      store.pane.workbook,
      sheet,
      t('The sheet {sheet} already holds something else. Rename it first.', { sheet }),
    );
    return {
      edits: newSurfacesSheet(parts?.form, [exampleSurface(parts, units)], add, units),
      added: t('Added the sheet {sheet}: one row a surface, with an invented example row, marked so in its note.', {
        sheet,
      }),
    };
  };
  return (
    <section className={styles.section} aria-labelledby="balance-no-surfaces">
      <h2 id="balance-no-surfaces" className={styles.heading}>
        {t('No control surface in this workbook yet')}
      </h2>
      <p className={styles.text}>
        {t(
          'A sheet named {sheet} takes one row for each surface: its component of the parts list and the hinge line, the scale’s readings at the trailing edge, and where a counterweight can go.',
          { sheet },
        )}{' '}
        {caution()}
      </p>
      <Button appearance="primary" onClick={() => void addSheets(store, t('Add the sheet of control surfaces'), make)}>
        {t('Add the sheet')}
      </Button>
    </section>
  );
}

/** An example that shows how a row is written, with invented figures. */
function exampleSurface(parts: PartsList | undefined, units: UnitSystem): NewSurface {
  const component = parts?.rows
    .map((row) => row.component)
    .find((name) => /aileron|elevator|rudder|flap|tab/i.test(name));
  const round = roundIn(units);
  return {
    name: component ?? 'Aileron',
    ...(component === undefined ? {} : { component }),
    raising: round(0.62, 'weight', 0.01),
    lowering: round(0.5, 'weight', 0.01),
    scaleArm: round(10, 'length', 5),
    ahead: round(4, 'length', 5),
    note: 'invented example, put your own',
  };
}
