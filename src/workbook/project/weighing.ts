/** The weighing record of a sheet: the facts above, the points, the corrections below. */
import { weigh, type Correction, type Gear, type WeighingPoint, type WeighingRecord, type WeighingResult } from '../../core/balance';
import { isBlank, type Cell } from '../../functions';
import { cellName } from '../address';
import { CORRECTIONS, GEARS, WEIGHING, WEIGHING_FACTS } from './balance-forms';
import { factText, findFact } from './facts';
import { INCHES, isoDate, POUNDS, RowReader, type Problem, type SheetValues } from './problems';
import { readForm, textIn } from './rows';

export interface Weighing {
  readonly sheet: string;
  readonly airplane: string;
  readonly record: WeighingRecord;
  /** Undefined where the scales show no weight. */
  readonly result: WeighingResult | undefined;
  readonly problems: readonly Problem[];
}

/** The weighing on a sheet; undefined where it has no header of points. */
export function readWeighing(values: SheetValues, sheet: string): Weighing | undefined {
  const cells = values(sheet);
  if (!cells) return undefined;
  const corrections = readForm(CORRECTIONS, cells, sheet);
  const points = readForm(WEIGHING, corrections ? cells.slice(0, corrections.header) : cells, sheet);
  if (!points) return undefined;
  const problems: Problem[] = [];
  const facts = readFacts(cells.slice(0, points.header), sheet, problems);
  const record: WeighingRecord = {
    ...facts.record,
    gear: facts.record.gear ?? 'nosewheel',
    points: readPoints(new RowReader(points, problems)),
    ...(corrections ? { corrections: readCorrections(new RowReader(corrections, problems)) } : {}),
  };
  const result = weigh(record);
  if (!result && problems.length === 0) problems.push({ sheet, cell: cellName(points.header, points.columns.reading ?? 0), message: 'has no scale reading below it yet' });
  const gear = facts.record.gear ?? gearByArms(record.points);
  if (facts.record.gear && gearByArms(record.points) !== undefined && gearByArms(record.points) !== facts.record.gear) {
    problems.push({ sheet, cell: facts.gearCell, message: `says ${facts.record.gear}, but the lightest point stands ${facts.record.gear === 'tailwheel' ? 'ahead of' : 'aft of'} the others: check the signs of the arms` });
  }
  return { sheet, airplane: facts.airplane, record: { ...record, gear: gear ?? 'nosewheel' }, result, problems };
}

interface Facts {
  readonly airplane: string;
  readonly gearCell: string;
  readonly record: { readonly gear?: Gear; readonly chord?: { readonly lemac: number; readonly mac: number }; readonly date?: string; readonly levelNote?: string; readonly scales?: string };
}

function readFacts(above: readonly (readonly Cell[])[], sheet: string, problems: Problem[]): Facts {
  const find = (key: keyof typeof WEIGHING_FACTS) => findFact(above, WEIGHING_FACTS[key]);
  const place = (key: keyof typeof WEIGHING_FACTS): string => cellName(find(key)?.row ?? 0, find(key)?.column ?? 0);
  const number = (key: 'lemac' | 'mac', above: number, takes: string): number | undefined => {
    const value = find(key)?.value;
    if (isBlank(value)) return undefined;
    if (typeof value === 'number' && value > above) return value;
    problems.push({ sheet, cell: place(key), message: `got ${String(value)}; takes ${takes}` });
    return undefined;
  };
  const word = factText(find('gear')).toLowerCase();
  const gear = GEARS.find((one) => one === word.replace(/[\s-]/g, ''));
  if (word !== '' && !gear) problems.push({ sheet, cell: place('gear'), message: `got "${word}"; takes tailwheel or nosewheel` });
  const written = find('date')?.value;
  const date = isoDate(written ?? undefined);
  if (!isBlank(written) && date === undefined) problems.push({ sheet, cell: place('date'), message: `got ${String(written)}; takes a date, or year-month-day as 2026-03-31` });
  const lemac = number('lemac', -12_000, 'inches from the datum');
  const mac = number('mac', 0, 'inches above 0');
  if ((lemac === undefined) !== (mac === undefined)) problems.push({ sheet, cell: place(lemac === undefined ? 'lemac' : 'mac'), message: 'is needed for per cent of the chord: give both the leading edge and the length of the MAC' });
  const [levelNote, scales] = [factText(find('level')), factText(find('scales'))];
  return {
    airplane: factText(find('airplane')),
    gearCell: place('gear'),
    record: {
      ...(gear ? { gear } : {}),
      ...(lemac !== undefined && mac !== undefined ? { chord: { lemac, mac } } : {}),
      ...(date === undefined ? {} : { date }),
      ...(levelNote === '' ? {} : { levelNote }),
      ...(scales === '' ? {} : { scales }),
    },
  };
}

function readPoints(reader: RowReader<(typeof WEIGHING.columns)[number]['key']>): WeighingPoint[] {
  return reader.sheet.rows.flatMap((row): WeighingPoint[] => {
    const name = textIn(row.cells.point);
    const { reading: typed } = row.cells;
    // A named point that waits for its reading is no fault: the sheet is filled on the day of the weighing.
    if (typed === undefined) return [];
    const reading = reader.number(row, 'reading', POUNDS);
    const arm = reader.needed(row, 'arm', INCHES);
    const tare = reader.number(row, 'tare', POUNDS) ?? 0;
    if (reading === undefined || arm === undefined) return [];
    if (tare > reading) {
      reader.problem(row, 'tare', `got ${tare}; takes no more than the reading, ${reading}`);
      return [];
    }
    return [{ name: name || `Point ${row.row + 1}`, reading, tare, arm }];
  });
}

function readCorrections(reader: RowReader<(typeof CORRECTIONS.columns)[number]['key']>): Correction[] {
  return reader.sheet.rows.flatMap((row): Correction[] => {
    if (row.cells.weight === undefined && row.cells.arm === undefined) return [];
    const weight = reader.needed(row, 'weight', { takes: 'pounds: negative for what is taken off' });
    const arm = reader.needed(row, 'arm', INCHES);
    return weight === undefined || arm === undefined ? [] : [{ name: textIn(row.cells.correction) || 'Correction', weight, arm }];
  });
}

/** A tailwheel stands aft of the main wheels and a nosewheel ahead, and either carries less than one of them; undefined where three points do not tell. */
function gearByArms(points: readonly WeighingPoint[]): Gear | undefined {
  if (points.length !== 3) return undefined;
  const [third, ...mains] = [...points].sort((a, b) => a.reading - a.tare - (b.reading - b.tare));
  if (mains.every(({ arm }) => arm < third!.arm)) return 'tailwheel';
  return mains.every(({ arm }) => arm > third!.arm) ? 'nosewheel' : undefined;
}
