/** The report's sections on one airplane's balance: the weighing record, stations, loading cases, worst loadings. */
import { reachableOutline, type Correction, type WeighedPoint, type WeighingResult, type WorstLoading } from '../core/balance';
import { envelopePicture, fixed } from '../pictures';
import type { BalanceModel, JudgedBalance, JudgedCase, StationRow, Weighing } from '../workbook';
import { judgedCase } from '../workbook';
import { envelopeData } from './figures';
import { facts, figure, join, pair, paragraph, section, sheet, subheading, table, type Html } from './html';
import { FULL } from './weights-part';

/** Pixels that one of two pictures side by side is laid out for. */
const HALF = 320;

const named = (heading: string, airplane: string): string => (airplane ? `${heading}: ${airplane}` : heading);

/** @param ownSheet true: the record begins a new sheet of paper, to be kept with the aircraft's documents */
export function weighingSection({ weighing, airplane }: BalanceModel, ownSheet: boolean): Html | undefined {
  const record = weighing?.result && weighingRecord(weighing, weighing.result, airplane);
  return record && ownSheet ? sheet(record) : record;
}

function weighingRecord(weighing: Weighing, result: WeighingResult, airplane: string): Html {
  const { record } = weighing;
  const sums: (Pick<WeighingResult, 'weight' | 'arm' | 'moment'> & { name: string; percent: number | undefined })[] = [
    { name: 'As weighed', ...result.asWeighed, percent: undefined },
    { name: 'Empty, corrected', weight: result.weight, arm: result.arm, moment: result.moment, percent: result.percentMac },
  ];
  return section(
    named('Weighing record', airplane),
    facts([
      ['Weighed on', record.date],
      ['Gear', record.gear],
      ['Level found by', record.levelNote],
      ['Scales', record.scales],
      ['MAC', record.chord && `${fixed(record.chord.mac, 2)} in long, leading edge at ${fixed(record.chord.lemac, 2)} in`],
    ]),
    table<WeighedPoint>({
      columns: [
        { head: 'Point', cell: ({ name }) => name },
        { head: 'Reading', unit: 'lb', number: true, cell: ({ reading }) => fixed(reading, 1) },
        { head: 'Tare', unit: 'lb', number: true, cell: ({ tare }) => fixed(tare, 1) },
        { head: 'Net', unit: 'lb', number: true, cell: ({ net }) => fixed(net, 1) },
        { head: 'Arm', unit: 'in', number: true, cell: ({ arm }) => fixed(arm, 2) },
        { head: 'Moment', unit: 'lb·in', number: true, cell: ({ moment }) => fixed(moment, 1) },
      ],
      rows: result.points,
    }),
    table<Correction>({
      columns: [
        { head: 'Correction', cell: ({ name }) => name },
        { head: 'Weight', unit: 'lb', number: true, cell: ({ weight }) => fixed(weight, 1) },
        { head: 'Arm', unit: 'in', number: true, cell: ({ arm }) => fixed(arm, 2) },
        { head: 'Moment', unit: 'lb·in', number: true, cell: ({ weight, arm }) => fixed(weight * arm, 1) },
      ],
      rows: record.corrections ?? [],
    }),
    table({
      columns: [
        { head: 'Result', cell: ({ name }: (typeof sums)[number]) => name },
        { head: 'Weight', unit: 'lb', number: true, cell: ({ weight }) => fixed(weight, 1) },
        { head: 'Arm', unit: 'in', number: true, cell: ({ arm }) => fixed(arm, 2) },
        { head: 'Moment', unit: 'lb·in', number: true, cell: ({ moment }) => fixed(moment, 1) },
        { head: 'MAC', unit: '%', number: true, cell: ({ percent }) => (percent === undefined ? '' : fixed(percent, 1)) },
      ],
      rows: sums,
      stress: ({ name }) => name !== 'As weighed',
    }),
    signatures(weighing),
  );
}

/** Who weighed: to be filled in by hand. */
const signatures = ({ record }: Weighing): Html => paragraph(`Weighed by ______________________   Checked by ______________________   Date ${record.date ?? '______________'}`);

const outside = ({ result }: JudgedCase): boolean => !result.inside;

export function loadingSection(model: BalanceModel): Html | undefined {
  const { judged, airplane, stations, envelopeSheet } = model;
  if (!judged) return undefined;
  const cases = [...judged.cases, ...(judged.cases.length === 0 && judged.now ? [judged.now] : [])];
  const all = envelopeData(model, cases, reachableOutline(judged.airplane));
  return section(
    named('Loading', airplane),
    envelopeSheet?.limitsFrom ? paragraph(`Limits from: ${envelopeSheet.limitsFrom}`) : paragraph('The envelope does not say which document its limits come from.'),
    stationsTable(stations),
    all && figure(envelopePicture(all, { width: FULL })),
    casesTable(cases),
    cases.length > 1 && pair(cases.flatMap((one) => casePicture(model, one))),
    worstTable(judged),
  );
}

function casePicture(model: BalanceModel, one: JudgedCase): Html[] {
  const data = envelopeData(model, [one]);
  return data ? [figure(envelopePicture({ ...data, title: `Loading case ${one.name}` }, { width: HALF }))] : [];
}

const stationsTable = (stations: readonly StationRow[]): Html | undefined =>
  table<StationRow>({
    caption: 'Stations',
    columns: [
      { head: 'Station', cell: ({ name }) => name },
      { head: 'Arm', unit: 'in', number: true, cell: ({ arm }) => fixed(arm, 2) },
      { head: 'Least', unit: 'lb', number: true, cell: ({ min }) => fixed(min, 1) },
      { head: 'Most', unit: 'lb', number: true, cell: ({ max }) => fixed(max, 1) },
      { head: 'Fuel', cell: ({ fuel }) => (fuel ? 'burns down to its least' : '') },
    ],
    rows: stations,
  });

const casesTable = (cases: readonly JudgedCase[]): Html | undefined =>
  table<JudgedCase>({
    caption: 'Loading cases',
    columns: [
      { head: 'Case', cell: ({ name }) => name },
      { head: 'Take-off', unit: 'lb', number: true, cell: ({ result }) => fixed(result.takeoff.weight, 1) },
      { head: 'Arm', unit: 'in', number: true, cell: ({ result }) => fixed(result.takeoff.arm, 2) },
      { head: 'Landing', unit: 'lb', number: true, cell: ({ result }) => fixed(result.landing.weight, 1) },
      { head: 'Arm', unit: 'in', number: true, cell: ({ result }) => fixed(result.landing.arm, 2) },
      { head: 'Verdict', cell: ({ words }) => words.verdict },
    ],
    rows: cases,
    stress: outside,
  });

interface WorstLine {
  readonly name: string;
  readonly loading: WorstLoading;
  readonly loads: string;
  readonly words: string;
}

/** The worst that the stations' ranges allow, with the loads that bring it about. */
function worstTable({ worst, airplane, allInside }: JudgedBalance): Html {
  const line = (name: string, loading: WorstLoading | undefined): WorstLine[] => {
    if (!loading) return [];
    const loads = airplane.stations.flatMap((station, index) => (loading.loads[index] ? [`${station.name} ${fixed(loading.loads[index], 1)}`] : [])).join(', ');
    return [{ name, loading, loads, words: judgedCase(airplane, name, loading.loads).words.takeoff }];
  };
  const rows = [...line('Most forward', worst.forward), ...line('Most aft', worst.aft), ...line('Nearest the forward limit', worst.forwardMargin), ...line('Nearest the aft limit', worst.aftMargin), ...line('Heaviest', worst.heaviest), ...line('Lightest', worst.lightest)];
  return join(
    subheading('The worst that the stations allow'),
    paragraph(allInside ? 'Every loading within the stations’ ranges is inside the envelope.' : 'Loadings within the stations’ ranges can be outside the envelope: load by a case, or narrow the ranges.'),
    table<WorstLine>({
      columns: [
        { head: 'Loading', cell: ({ name }) => name },
        { head: 'Weight', unit: 'lb', number: true, cell: ({ loading }) => fixed(loading.weight, 1) },
        { head: 'Arm', unit: 'in', number: true, cell: ({ loading }) => fixed(loading.arm, 2) },
        { head: 'Against the envelope', cell: ({ words }) => words },
        { head: 'Loads', unit: 'lb', cell: ({ loads }) => loads },
      ],
      rows,
      stress: ({ loading }) => !loading.judgement.inside,
    }),
  );
}
