/** The files that are generated from the catalogue and lie beside the functions bundle. */
import { functionsMetadata, REFERENCE_PAGE } from './metadata';
import { referencePage } from './reference';

/** File names and texts, for an add-in served from `host`. */
export function catalogueFiles(host: string): Record<string, string> {
  return {
    'functions.json': `${JSON.stringify(functionsMetadata(host), null, 1)}\n`,
    [REFERENCE_PAGE]: referencePage(),
  };
}
