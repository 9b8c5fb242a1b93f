/** Pictures in the pane: drawn for the width that there is, their parts to be picked by click or key, and readable as a table too. */
import { Button, makeStyles, tokens } from '@fluentui/react-components';
import { createElement, useId, useRef, useState, type KeyboardEvent, type ReactElement, type ReactNode } from 'react';
import { reactAttributes, type SvgNode } from '../../core/markup';
import type { PictureOptions } from '../../pictures';
import { t, translate } from '../locale';
import { useWidth } from './element';

const useStyles = makeStyles({
  picture: {
    minWidth: 0,
    '--picture-ink': tokens.colorNeutralForeground1,
    '--picture-fill': tokens.colorBrandStroke1,
    '--picture-alert': tokens.colorStatusDangerForeground3,
    '--picture-ground': tokens.colorNeutralBackground1,
    '& svg': { display: 'block', maxWidth: '100%', overflow: 'visible' },
    '& [role=button]': { cursor: 'pointer', outlineStyle: 'none' },
    '& [role=button]:hover text': { textDecorationLine: 'underline' },
    '& [role=button]:focus-visible': { outline: `2px solid ${tokens.colorStrokeFocus2}`, outlineOffset: '1px' },
  },
  figure: { margin: '0 0 16px', minWidth: 0 },
  head: { display: 'flex', flexWrap: 'wrap', alignItems: 'center', gap: '4px 8px', margin: '0 0 6px' },
  heading: {
    margin: 0,
    flexGrow: 1,
    fontSize: tokens.fontSizeBase300,
    lineHeight: tokens.lineHeightBase300,
    fontWeight: tokens.fontWeightSemibold,
  },
  table: { overflowX: 'auto' },
});

export interface PictureProps {
  /** Draws for the options it is given; called again for every width. */
  readonly draw: (options: PictureOptions) => SvgNode;
  /** Called when a part is picked, with the id that the part had in the data; without it nothing can be picked. */
  readonly onPick?: (id: string) => void;
}

/** A picture as wide as its place. Its parts are one Tab stop; arrow keys go from part to part, Enter and Space pick. */
export function Picture({ draw, onPick }: PictureProps) {
  const styles = useStyles();
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const [stop, setStop] = useState<string>();
  const tree = width > 0 ? draw({ width, pickable: onPick !== undefined, words: translate }) : undefined;
  const picks = tree && onPick ? picksIn(tree) : [];
  const at = stop !== undefined && picks.includes(stop) ? stop : picks[0];

  const onKeyDown = (event: KeyboardEvent): void => {
    const id = (event.target as Element).getAttribute('data-pick');
    if (id === null || event.ctrlKey || event.metaKey || event.altKey) return;
    const index = picks.indexOf(id);
    const to = {
      ArrowDown: index + 1,
      ArrowRight: index + 1,
      ArrowUp: index - 1,
      ArrowLeft: index - 1,
      Home: 0,
      End: picks.length - 1,
    }[event.key];
    if (event.key === 'Enter' || event.key === ' ') onPick?.(id);
    else if (to === undefined) return;
    else
      frame.current?.querySelectorAll<SVGElement>('[data-pick]')[Math.min(picks.length - 1, Math.max(0, to))]?.focus();
    event.preventDefault();
  };
  return (
    <div ref={frame} className={styles.picture} onKeyDown={onKeyDown}>
      {tree && svgElement(tree, 0, onPick ? { at, pick: onPick, focus: setStop } : undefined)}
    </div>
  );
}

interface Picking {
  /** The part that Tab reaches. */
  readonly at: string | undefined;
  pick(id: string): void;
  focus(id: string): void;
}

const picksIn = ({ pick, children }: SvgNode): string[] => [
  ...(pick === undefined ? [] : [pick]),
  ...children.flatMap((child) => (typeof child === 'string' ? [] : picksIn(child))),
];

/** A part that can be picked is named by its own title. */
function svgElement(node: SvgNode, index: number, picking: Picking | undefined): ReactElement {
  const { tag, children, key, pick } = node;
  const pickProps =
    picking && pick !== undefined
      ? {
          role: 'button',
          tabIndex: pick === picking.at ? 0 : -1,
          'data-pick': pick,
          onClick: () => picking.pick(pick),
          onFocus: () => picking.focus(pick),
        }
      : {};
  return createElement(
    tag,
    { key: key ?? index, ...reactAttributes(node), ...pickProps },
    ...children.map((child, place) => (typeof child === 'string' ? child : svgElement(child, place, picking))),
  );
}

/** A picture under its heading, with a button that shows its figures as a table instead. */
export function Figure({
  title,
  table,
  children,
  draw,
  onPick,
}: PictureProps & {
  readonly title: string;
  /** The same figures as a table. */
  readonly table: ReactNode;
  /** Choices of what is drawn, shown between the heading and the picture. */
  readonly children?: ReactNode;
}) {
  const styles = useStyles();
  const id = useId();
  const [asTable, setAsTable] = useState(false);
  return (
    <section className={styles.figure} aria-labelledby={id}>
      <div className={styles.head}>
        <h2 id={id} className={styles.heading}>
          {title}
        </h2>
        <Button
          size="small"
          appearance={asTable ? 'outline' : 'subtle'}
          aria-pressed={asTable}
          onClick={() => setAsTable(!asTable)}
        >
          {t('As a table')}
        </Button>
      </div>
      {children}
      {asTable ? <div className={styles.table}>{table}</div> : <Picture draw={draw} {...(onPick ? { onPick } : {})} />}
    </section>
  );
}
