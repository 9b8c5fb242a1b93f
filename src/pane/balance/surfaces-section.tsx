/** Control surfaces on their hinges: from the parts list, from the scale, how the two agree, and the counterweight. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useState } from 'react';
import { newSurfacesSheet, SURFACES, type PartsList, type SurfaceKey, type SurfaceRow, type SurfacesSheet } from '../../workbook';
import type { CellKind } from '../cell-text';
import { Problems } from '../problems';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import { freeSheet } from './new-sheets';
import { bare } from './numbers';
import { clearRowEdits, nextRow } from './row-edits';
import { useStyles } from './styles';
import { agreementWords, counterweightWords, headline, measuredWords, partsWords } from './surface-words';

const FIELDS: readonly (readonly [SurfaceKey, CellKind])[] = [['surface', 'text'], ['component', 'text'], ['hinge', 'number'], ['raising', 'number'], ['lowering', 'number'], ['scaleArm', 'number'], ['ahead', 'number'], ['share', 'number']];
const CAUTION = 'How a surface has to be balanced is in the designer’s documents; paint and repairs change it.';

export function SurfacesSection({ store, sheet, parts }: { readonly store: BalanceStore; readonly sheet: SurfacesSheet | undefined; readonly parts: PartsList | undefined }) {
  const styles = useStyles();
  const [adding, setAdding] = useState<number>();
  if (!sheet) return <NoSurfaces store={store} parts={parts} />;
  const { form, surfaces, problems } = sheet;
  const rows = form.rows.map(({ row }) => row);
  const shown = adding !== undefined && !rows.includes(adding) ? [...rows, adding] : rows;
  const add = (): void => {
    const next = nextRow(SURFACES, form, rows, store.state.sheets);
    if ('full' in next) store.tell('failed', next.full);
    else setAdding(next.row);
  };
  return (
    <>
      <p className={styles.text}>A surface level on its hinges. Its moment about the hinge line follows from its parts and from a scale under the trailing edge; the mean of raising and lowering is without friction. {CAUTION}</p>
      {shown.map((row) => (
        <Surface key={row} store={store} sheet={sheet} row={row} surface={surfaces.find((one) => one.row === row)} parts={parts} onRemoved={() => setAdding(undefined)} />
      ))}
      <div className={styles.buttons}>
        <Button size="small" onClick={add}>
          Add surface
        </Button>
      </div>
      <Problems store={store} problems={problems} />
    </>
  );
}

interface SurfaceProps {
  readonly store: BalanceStore;
  readonly sheet: SurfacesSheet;
  readonly row: number;
  readonly surface: SurfaceRow | undefined;
  readonly parts: PartsList | undefined;
  onRemoved(): void;
}

function Surface({ store, sheet: { form }, row, surface, parts, onRemoved }: SurfaceProps) {
  const styles = useStyles();
  const id = `surface-${row}`;
  const components = [...new Set(parts?.rows.map(({ component }) => component) ?? [])];
  const name = surface?.name ?? 'New surface';
  const remove = (): void => {
    onRemoved();
    if (surface) void store.change(`Remove ${name}`, clearRowEdits(SURFACES, form, row), `Removed ${name}. Undo brings it back.`);
  };
  return (
    <section className={styles.section} aria-labelledby={id}>
      <div className={styles.head}>
        <h2 id={id} className={styles.heading}>
          {name}
          {surface && `: ${headline(surface)}`}
        </h2>
        <Button size="small" appearance="subtle" onClick={remove} aria-label={`Remove ${name}`}>
          Remove
        </Button>
      </div>
      <div className={styles.facts}>
        {FIELDS.map(([key, kind]) => {
          const column = form.columns[key];
          const { label } = SURFACES.columns.find((one) => one.key === key)!;
          if (column === undefined) return null;
          return (
            <CellField
              key={key}
              store={store}
              sheet={form.sheet}
              row={row}
              column={column}
              kind={kind}
              label={`${label} of ${name}`}
              shownLabel={label}
              autoFocus={!surface && key === 'surface'}
              {...(key === 'component' && components.length > 0 ? { choices: components } : {})}
              {...(key === 'share' ? { placeholder: '100' } : {})}
            />
          );
        })}
      </div>
      {surface && <Findings surface={surface} />}
    </section>
  );
}

function Findings({ surface }: { readonly surface: SurfaceRow }) {
  const styles = useStyles();
  const { parts, hinge } = surface;
  const lines = [
    ['From parts', partsWords(surface)],
    ['Measured', measuredWords(surface)],
    ['Agreement', agreementWords(surface)],
    ['Counterweight', counterweightWords(surface)],
  ] as const;
  return (
    <>
      <table className={mergeClasses(styles.table, styles.results)} style={{ marginTop: '8px' }}>
        <caption className={styles.spoken}>What follows for {surface.name}</caption>
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
      </table>
      {parts && hinge !== undefined && (
        <details>
          <summary>The parts and their arms from the hinge line</summary>
          <table className={mergeClasses(styles.table, styles.results)}>
            <thead>
              <tr>
                <th scope="col">Part</th>
                <th scope="col" data-number="">
                  Weight, lb
                </th>
                <th scope="col" data-number="">
                  From hinge, in
                </th>
                <th scope="col" data-number="">
                  Moment, lb·in
                </th>
              </tr>
            </thead>
            <tbody>
              {parts.rows.map(({ row, part, weight, arm }) => (
                <tr key={row}>
                  <th scope="row">{part}</th>
                  <td data-number="">{weight === undefined ? '–' : bare(weight, 2)}</td>
                  <td data-number="">{arm === undefined ? '–' : bare(arm - hinge, 2)}</td>
                  <td data-number="">{weight === undefined || arm === undefined ? '–' : bare(weight * (arm - hinge), 2)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
    </>
  );
}

function NoSurfaces({ store, parts }: { readonly store: BalanceStore; readonly parts: PartsList | undefined }) {
  const styles = useStyles();
  const add = async (): Promise<void> => {
    const { surfaces, words } = exampleSurfaces(parts);
    try {
      const free = await freeSheet(store.pane.workbook, SURFACES.sheet);
      if (free === undefined) return store.tell('failed', `There is a sheet ${SURFACES.sheet} already that holds something else: rename it first.`);
      const wrong = await store.change('Add the sheet of control surfaces', newSurfacesSheet(parts?.form, surfaces, free === 'add'));
      if (wrong === undefined) store.sayAdded(`Added the sheet ${SURFACES.sheet}: one row a surface, with ${words}.`);
    } catch (error) {
      store.tell('failed', String(error));
    }
  };
  return (
    <section className={styles.section} aria-labelledby="balance-no-surfaces">
      <h2 id="balance-no-surfaces" className={styles.heading}>
        No control surface in this workbook yet
      </h2>
      <p className={styles.text}>A sheet named {SURFACES.sheet} takes one row for each surface: its component of the parts list and the hinge line, the scale’s readings at the trailing edge, and where a counterweight can go. {CAUTION}</p>
      <Button appearance="primary" onClick={() => void add()}>
        Add the sheet
      </Button>
    </section>
  );
}

/** An example that shows how a row is written, with invented figures. */
const exampleSurfaces = (parts: PartsList | undefined) => {
  const component = parts?.rows.map((row) => row.component).find((name) => /aileron|elevator|rudder|flap|tab/i.test(name));
  return {
    surfaces: [{ name: component ?? 'Aileron', ...(component === undefined ? {} : { component }), raising: 0.62, lowering: 0.5, scaleArm: 10, ahead: 4, note: 'invented example, put your own' }],
    words: 'an invented example row, marked so in its note',
  };
};
