/** What a person typed after a step of ours: taking the step back must not delete it. */
import { overlap, parseRange, type RangeAddress, type TableModel } from '../../sheet';
import { tableNamed } from './shape';
import type { Step } from './steps';

/** A place that a person edited, as Excel tells it. */
export interface Touch {
  readonly worksheetId: string;
  /** "B3" or "B3:C9"; several, whole rows and whole columns are told in other forms. */
  readonly address: string;
}

/** A place on a sheet; without a range, somewhere on it. */
interface Place {
  readonly sheet: string;
  readonly range: RangeAddress | undefined;
}

/** The first touch in whose place one of the steps would write or delete; undefined where they keep clear of all. */
export function firstTyped(
  steps: readonly Step[],
  touches: readonly Touch[],
  nameOf: (worksheetId: string) => string | undefined,
  tables: readonly TableModel[],
): { readonly sheet: string; readonly address: string } | undefined {
  const places = placesOf(steps, tables);
  for (const { worksheetId, address } of touches) {
    const sheet = nameOf(worksheetId);
    // A sheet that is gone holds nothing any more.
    if (sheet === undefined) continue;
    const range = parseRange(address, sheet);
    if (places.some((place) => place.sheet === sheet && (!place.range || !range || overlap(place.range, range))))
      return { sheet, address };
  }
  return undefined;
}

function placesOf(steps: readonly Step[], tables: readonly TableModel[]): Place[] {
  /** Sheets on which an earlier step moves rows, so that the places of later ones are not those of now. */
  const moved = new Set<string>();
  return steps.flatMap((step): Place[] => {
    switch (step.kind) {
      case 'cells': {
        const { sheet } = step.range;
        return [{ sheet, range: moved.has(sheet) ? undefined : step.range }];
      }
      case 'removeSheet':
        return [{ sheet: step.name, range: undefined }];
      case 'insertRows':
      case 'removeRows':
      case 'firstRow': {
        const table = tableNamed(tables, step.table)?.range;
        if (!table) return [];
        const { sheet } = table;
        const [at, rows] = step.kind === 'removeRows' ? [step.at, step.count] : [0, 1];
        const range = moved.has(sheet) ? undefined : { ...table, row: table.row + 1 + at, rows };
        if (step.kind !== 'firstRow') moved.add(sheet);
        return step.kind === 'insertRows' ? [] : [{ sheet, range }];
      }
      default:
        return [];
    }
  });
}
