/** The weighing record of a sheet: the facts above, the points, the corrections below. */
import {
  weigh,
  type Correction,
  type Gear,
  type WeighingPoint,
  type WeighingRecord,
  type WeighingResult,
} from '../core/balance';
import { cellName, isBlank, textIn } from '../sheet';
import {
  CORRECTIONS,
  GEARS,
  WEIGHING,
  WEIGHING_FACTS,
  type CorrectionKey,
  type WeighingFact,
  type WeighingKey,
} from './balance-forms';
import { factProblems, factText, findFacts, type Fact } from './facts';
import { isoDate, kept, type Problem, type SheetValues } from './reading';
import { partsSystem } from './project-units';
import {
  INCHES,
  POUNDS,
  readForm,
  readHead,
  RowReader,
  takesIn,
  typedText,
  type FormSheet,
  type NumberRule,
} from './rows';
import { factNumber } from './settings';

export interface Weighing {
  readonly sheet: string;
  readonly airplane: string;
  readonly points: FormSheet<WeighingKey>;
  readonly corrections: FormSheet<CorrectionKey> | undefined;
  /** Places and units of the facts above the points, as far as the sheet has them. */
  readonly facts: Readonly<Partial<Record<WeighingFact, Fact>>>;
  readonly record: WeighingRecord;
  /** Undefined where the scales show no weight, or the units of what they show cannot be told. */
  readonly result: WeighingResult | undefined;
  readonly problems: readonly Problem[];
}

/** The weighing on a sheet; undefined where it has no header of points. */
// eslint-disable-next-line complexity -- each column may be missing
export const readWeighing = kept((values: SheetValues, sheet: string): Weighing | undefined => {
  const cells = values(sheet);
  if (!cells) return undefined;
  const below = readHead(CORRECTIONS, cells, sheet);
  const points = readForm(WEIGHING, below ? cells.slice(0, below.header) : cells, sheet, partsSystem(values));
  if (!points) return undefined;
  const corrections = readForm(CORRECTIONS, cells, sheet, points.system);
  const found = findFacts(cells, WEIGHING_FACTS, points.header, points.system);
  const problems: Problem[] = [...points.problems, ...(corrections?.problems ?? []), ...factProblems(sheet, found)];
  const facts = readFacts(found, sheet, problems);
  const record: WeighingRecord = {
    ...facts.record,
    gear: facts.record.gear ?? 'nosewheel',
    points: readPoints(new RowReader(points, problems)),
    ...(corrections ? { corrections: readCorrections(new RowReader(corrections, problems)) } : {}),
  };
  // A tare or a correction that is left out would make a wrong empty weight, not a rough one.
  const unclear =
    points.refused.some((key) => key === 'reading' || key === 'tare' || key === 'arm') ||
    corrections?.refused.some((key) => key !== 'moment');
  const result = unclear ? undefined : weigh(record);
  if (!result && problems.length === 0)
    problems.push({
      sheet,
      cell: cellName(points.header, points.columns.reading ?? 0),
      message: 'has no scale reading below it yet',
    });
  const gear = facts.record.gear ?? gearByArms(record.points);
  if (facts.record.gear && gearByArms(record.points) !== undefined && gearByArms(record.points) !== facts.record.gear) {
    problems.push({
      sheet,
      cell: facts.gearCell,
      message: `says ${facts.record.gear}, but the lightest point stands ${facts.record.gear === 'tailwheel' ? 'ahead of' : 'aft of'} the others: check the signs of the arms`,
    });
  }
  return {
    sheet,
    airplane: facts.airplane,
    points,
    corrections,
    facts: found,
    record: { ...record, gear: gear ?? 'nosewheel' },
    result,
    problems,
  };
});

const CHORD: NumberRule = { above: 0, takes: ({ unit }) => `${unit} above 0` };

interface Facts {
  readonly airplane: string;
  readonly gearCell: string;
  readonly record: {
    readonly gear?: Gear;
    readonly chord?: { readonly lemac: number; readonly mac: number };
    readonly date?: string;
    readonly levelNote?: string;
    readonly scales?: string;
  };
}

// eslint-disable-next-line complexity -- each fact may be missing
function readFacts(found: Weighing['facts'], sheet: string, problems: Problem[]): Facts {
  const place = (key: WeighingFact): string => cellName(found[key]?.row ?? 0, found[key]?.column ?? 0);
  const number = (key: 'lemac' | 'mac', rule: NumberRule): number | undefined => {
    const said = ({ value, unit }: Fact): string => `got ${typedText(value, unit)}; takes ${takesIn(rule, unit)}`;
    return factNumber(sheet, found[key], rule, said, problems);
  };
  const word = factText(found.gear).toLowerCase();
  const gear = GEARS.find((one) => one === word.replace(/[\s-]/g, ''));
  if (word !== '' && !gear)
    problems.push({ sheet, cell: place('gear'), message: `got "${word}"; takes tailwheel or nosewheel` });
  const written = found.date?.value;
  const date = isoDate(written ?? undefined);
  if (!isBlank(written) && date === undefined)
    problems.push({
      sheet,
      cell: place('date'),
      message: `got ${String(written)}; takes a date, or year-month-day as 2026-03-31`,
    });
  const lemac = number('lemac', INCHES);
  const mac = number('mac', CHORD);
  const refused = found.lemac?.wrong !== undefined || found.mac?.wrong !== undefined;
  if (!refused && (lemac === undefined) !== (mac === undefined))
    problems.push({
      sheet,
      cell: place(lemac === undefined ? 'lemac' : 'mac'),
      message: 'is missing: per cent of the chord needs both the leading edge and the length of the MAC',
    });
  const [levelNote, scales] = [factText(found.level), factText(found.scales)];
  return {
    airplane: factText(found.airplane),
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

const readPoints = (reader: RowReader<WeighingKey>): WeighingPoint[] =>
  reader.sheet.rows.flatMap((row): WeighingPoint[] => {
    // A named point that waits for its reading is no fault: the sheet is filled on the day of the weighing.
    if (row.cells.reading === undefined) return [];
    const reading = reader.number(row, 'reading', POUNDS);
    const arm = reader.needed(row, 'arm', INCHES);
    const tare = reader.number(row, 'tare', POUNDS) ?? 0;
    if (reading === undefined || arm === undefined) return [];
    if (tare > reading) {
      reader.problem(
        row,
        'tare',
        `got ${reader.typed(row, 'tare')}; takes no more than the reading, ${reader.typed(row, 'reading')}`,
      );
      return [];
    }
    return [{ name: textIn(row.cells.point) || `Point ${row.row + 1}`, reading, tare, arm }];
  });

const readCorrections = (reader: RowReader<CorrectionKey>): Correction[] =>
  reader.sheet.rows.flatMap((row): Correction[] => {
    if (row.cells.weight === undefined && row.cells.arm === undefined) return [];
    const weight = reader.needed(row, 'weight', { takes: ({ unit }) => `${unit}: negative for what is taken off` });
    const arm = reader.needed(row, 'arm', INCHES);
    return weight === undefined || arm === undefined
      ? []
      : [{ name: textIn(row.cells.correction) || 'Correction', weight, arm }];
  });

/** A tailwheel stands aft of the main wheels and a nosewheel ahead, and either carries less than one of them; undefined where three points do not tell. */
function gearByArms(points: readonly WeighingPoint[]): Gear | undefined {
  if (points.length !== 3) return undefined;
  const [third, ...mains] = [...points].sort((a, b) => a.reading - a.tare - (b.reading - b.tare));
  if (mains.every(({ arm }) => arm < third!.arm)) return 'tailwheel';
  return mains.every(({ arm }) => arm > third!.arm) ? 'nosewheel' : undefined;
}
