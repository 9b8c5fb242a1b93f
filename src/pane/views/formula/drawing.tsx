/** Drawings of the functions, in the colour of the text around them. */
import { useId, useRef } from 'react';
import { memoized } from '../../../core/memoized';
import { figureFor, figureToSvg, figureToThumbnail, type Figure } from '../../../functions/drawings';
import { useWidth } from '../../shared/element';
import { useStyles } from './styles';

const SMALL = { width: 56, height: 36 };
/** Kept whatever is drawn, so that nothing below moves. */
const HEIGHT = { usual: 148, tall: 180 };

const thumbnailOf = memoized((name: string): string => {
  const figure = figureFor(name);
  return figure ? figureToThumbnail(figure, SMALL) : '';
});

// Made here from numbers and from names of the catalogue, with every label escaped.
export function Thumbnail({ name }: { readonly name: string }) {
  const styles = useStyles();
  return (
    <span className={styles.thumbnail} aria-hidden="true" dangerouslySetInnerHTML={{ __html: thumbnailOf(name) }} />
  );
}

/** Labels beside a part take its width: in a narrow place they give the number alone. */
const NARROW = 380;
const narrowed = (figure: Figure): Figure => ({
  ...figure,
  notes: figure.notes.map((note) =>
    note.kind === 'span' && Math.abs(note.heading) === 90 ? { ...note, label: note.label.split(' = ').at(-1)! } : note,
  ),
});

/** The drawing is as wide as the place that it has; its height never changes. */
export function Drawing({ figure }: { readonly figure: Figure }) {
  const styles = useStyles();
  const id = useId();
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const height = figure.tall ? HEIGHT.tall : HEIGHT.usual;
  return (
    <div
      ref={frame}
      className={styles.drawing}
      style={{ height }}
      dangerouslySetInnerHTML={{
        __html: width > 0 ? figureToSvg(width < NARROW ? narrowed(figure) : figure, id, { width, height }) : '',
      }}
    />
  );
}
