/** A label above a field, and below it why what was typed is not taken. */
import { makeStyles, tokens } from '@fluentui/react-components';
import type { ReactNode } from 'react';

const useStyles = makeStyles({
  field: { display: 'flex', flexDirection: 'column', minWidth: 0 },
  label: { color: tokens.colorNeutralForeground2 },
  wrong: { display: 'block', overflowWrap: 'break-word', color: tokens.colorStatusDangerForeground3 },
});

/** Id of the reason, for the field's aria-describedby. */
export const reasonId = (id: string): string => `${id}-wrong`;

interface Props {
  /** Of the field. */
  readonly id: string;
  readonly label: string;
  /** The reason; undefined where there is none. */
  readonly wrong: ReactNode;
  readonly children: ReactNode;
}

export function LabelledField({ id, label, wrong, children }: Props) {
  const styles = useStyles();
  return (
    <div className={styles.field}>
      <label htmlFor={id} className={styles.label}>
        {label}
      </label>
      {children}
      {wrong !== undefined && (
        <span id={reasonId(id)} className={styles.wrong}>
          {wrong}
        </span>
      )}
    </div>
  );
}

/** What is wrong with a cell: the pane's own refusal before what was found below the pane, which is in English. */
export function Why({ own, below }: { readonly own: string | undefined; readonly below: string | undefined }) {
  if (own !== undefined) return <>{own}</>;
  return below === undefined ? null : <span lang="en">{below}</span>;
}
