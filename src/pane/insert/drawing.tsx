/** Drawings of the functions, in the colour of the text around them. */
import { mergeClasses } from '@fluentui/react-components';
import { useId, useRef } from 'react';
import { figureFor, figureToSvg, figureToThumbnail, type Figure } from '../../functions/drawings';
import { useWidth } from '../use-width';
import { useStyles } from './styles';

const SMALL = { width: 56, height: 36 };
/** Kept whatever is drawn, so that nothing below moves. */
const HEIGHT = { usual: 176, tall: 216 };

const thumbnails = new Map<string, string>();

function thumbnailOf(name: string): string {
  let svg = thumbnails.get(name);
  if (svg === undefined) {
    const figure = figureFor(name);
    thumbnails.set(name, (svg = figure ? figureToThumbnail(figure, SMALL) : ''));
  }
  return svg;
}

// Made here from numbers and from names of the catalogue, with every label escaped.
export function Thumbnail({ name }: { readonly name: string }) {
  const styles = useStyles();
  return <span className={styles.thumbnail} aria-hidden="true" dangerouslySetInnerHTML={{ __html: thumbnailOf(name) }} />;
}

/** As wide as its place, and of a height that does not change. */
export function Drawing({ figure }: { readonly figure: Figure }) {
  const styles = useStyles();
  const id = useId();
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const height = figure.tall ? HEIGHT.tall : HEIGHT.usual;
  return <div ref={frame} className={mergeClasses(styles.drawing)} style={{ height }} dangerouslySetInnerHTML={{ __html: width > 0 ? figureToSvg(figure, id, { width, height }) : '' }} />;
}
