/** Cells under a heading, each with a button that selects it in the sheet and with what is said of it. */
import { Button, makeStyles } from '@fluentui/react-components';
import { useId, type ReactNode } from 'react';
import { HEADING, LIST, SECTION } from './looks';

const useStyles = makeStyles({ section: SECTION, heading: HEADING, list: LIST });

export interface ListedCell {
  readonly key: string;
  /** The cell as it is written: "Parts M7". */
  readonly name: string;
  readonly said: ReactNode;
  show(): void;
}

interface Props {
  readonly heading: string;
  readonly cells: readonly ListedCell[];
  /** A last line: how many are not named. */
  readonly rest?: ReactNode;
}

export function CellList({ heading, cells, rest }: Props) {
  const styles = useStyles();
  const id = useId();
  return (
    <section className={styles.section} aria-labelledby={id}>
      <h2 id={id} className={styles.heading}>
        {heading}
      </h2>
      <ul className={styles.list}>
        {cells.map(({ key, name, said, show }) => (
          <li key={key}>
            <Button size="small" appearance="subtle" onClick={show}>
              {name}
            </Button>{' '}
            {said}
          </li>
        ))}
        {rest && <li>{rest}</li>}
      </ul>
    </section>
  );
}
