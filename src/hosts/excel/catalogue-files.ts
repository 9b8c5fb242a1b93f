/** The files that are generated from the catalogue and lie beside the functions bundle. */
import { referencePages } from '../../functions/reference';
import { functionsMetadata } from './metadata';
import { REFERENCE } from './reference-folder';

/** File names and texts, for an add-in served from `host`. */
export function catalogueFiles(host: string): Record<string, string> {
  const pages = Object.entries(referencePages()).map(([name, html]) => [`${REFERENCE}/${name}`, html] as const);
  return { 'functions.json': `${JSON.stringify(functionsMetadata(host), null, 1)}\n`, ...Object.fromEntries(pages) };
}
