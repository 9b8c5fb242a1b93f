/** The report's sections on one airplane's balance: the weighing record, stations, loading cases, worst loadings. */
import {
  reachableOutline,
  type Correction,
  type WeighedPoint,
  type WeighingResult,
  type Wording,
  type WorstLoading,
} from '../core/balance';
import { quantities, type Quantities } from '../core/quantity';
import { envelopePicture } from '../pictures';
import {
  judgedCase,
  type BalanceModel,
  type JudgedBalance,
  type JudgedCase,
  type StationRow,
  type Weighing,
} from '../project';
import { envelopeData } from './figures';
import {
  facts,
  figure,
  join,
  pair,
  paragraph,
  quantityColumns,
  section,
  sheet,
  subheading,
  table,
  type Html,
} from './html';
import { FULL } from './weights-part';

/** Pixels that one of two pictures side by side is laid out for. */
const HALF = 320;

const named = (heading: string, airplane: string): string => (airplane ? `${heading}: ${airplane}` : heading);

/** @param ownSheet true: the record begins a new sheet of paper, to be kept with the aircraft's documents */
export function weighingSection({ weighing, airplane, units }: BalanceModel, ownSheet: boolean): Html | undefined {
  const record = weighing?.result && weighingRecord(weighing, weighing.result, airplane, quantities(units));
  return record && ownSheet ? sheet(record) : record;
}

interface SumLine extends Pick<WeighingResult, 'weight' | 'arm' | 'moment'> {
  readonly name: string;
  readonly percent: number | undefined;
}

function weighingRecord(weighing: Weighing, result: WeighingResult, airplane: string, say: Quantities): Html {
  const { record } = weighing;
  const quantity = quantityColumns(say);
  const sums: SumLine[] = [
    { name: 'As weighed', ...result.asWeighed, percent: undefined },
    {
      name: 'Empty, corrected',
      weight: result.weight,
      arm: result.arm,
      moment: result.moment,
      percent: result.percentMac,
    },
  ];
  return section(
    named('Weighing record', airplane),
    facts([
      ['Weighed on', record.date],
      ['Gear', record.gear],
      ['Level found by', record.levelNote],
      ['Scales', record.scales],
      [
        'MAC',
        record.chord &&
          `${say.say(record.chord.mac, 'length', 2)} long, leading edge at ${say.say(record.chord.lemac, 'length', 2)}`,
      ],
    ]),
    table<WeighedPoint>({
      columns: [
        { head: 'Point', cell: ({ name }) => name },
        quantity('Reading', 'weight', 1, ({ reading }) => reading),
        quantity('Tare', 'weight', 1, ({ tare }) => tare),
        quantity('Net', 'weight', 1, ({ net }) => net),
        quantity('Arm', 'length', 2, ({ arm }) => arm),
        quantity('Moment', 'moment', 1, ({ moment }) => moment),
      ],
      rows: result.points,
    }),
    table<Correction>({
      columns: [
        { head: 'Correction', cell: ({ name }) => name },
        quantity('Weight', 'weight', 1, ({ weight }) => weight),
        quantity('Arm', 'length', 2, ({ arm }) => arm),
        quantity('Moment', 'moment', 1, ({ weight, arm }) => weight * arm),
      ],
      rows: record.corrections ?? [],
    }),
    table<SumLine>({
      columns: [
        { head: 'Result', cell: ({ name }) => name },
        quantity('Weight', 'weight', 1, ({ weight }) => weight),
        quantity('Arm', 'length', 2, ({ arm }) => arm),
        quantity('Moment', 'moment', 1, ({ moment }) => moment),
        {
          head: 'MAC',
          unit: '%',
          number: true,
          cell: ({ percent }) => (percent === undefined ? '' : say.write(percent, 1)),
        },
      ],
      rows: sums,
      stress: ({ name }) => name !== 'As weighed',
    }),
    signatures(weighing),
  );
}

/** Who weighed: to be filled in by hand. */
const signatures = ({ record }: Weighing): Html =>
  paragraph(
    `Weighed by ______________________   Checked by ______________________   Date ${record.date ?? '______________'}`,
  );

const outside = ({ result }: JudgedCase): boolean => !result.inside;

export function loadingSection(model: BalanceModel): Html | undefined {
  const { judged, airplane, stations, envelopeSheet, units } = model;
  if (!judged) return undefined;
  const say = quantities(units);
  const cases = [...judged.cases, ...(judged.cases.length === 0 && judged.now ? [judged.now] : [])];
  const all = envelopeData(model, cases, reachableOutline(judged.airplane));
  return section(
    named('Loading', airplane),
    envelopeSheet?.limitsFrom
      ? paragraph(`Limits from: ${envelopeSheet.limitsFrom}`)
      : paragraph('The envelope does not say which document its limits come from.'),
    stationsTable(stations, say),
    all && figure(envelopePicture(all, { width: FULL })),
    casesTable(cases, say),
    cases.length > 1 && pair(cases.flatMap((one) => casePicture(model, one))),
    worstTable(judged, model.say, say),
  );
}

function casePicture(model: BalanceModel, one: JudgedCase): Html[] {
  const data = envelopeData(model, [one]);
  return data ? [figure(envelopePicture({ ...data, title: `Loading case ${one.name}` }, { width: HALF }))] : [];
}

function stationsTable(stations: readonly StationRow[], say: Quantities): Html | undefined {
  const quantity = quantityColumns(say);
  return table<StationRow>({
    caption: 'Stations',
    columns: [
      { head: 'Station', cell: ({ name }) => name },
      quantity('Arm', 'length', 2, ({ arm }) => arm),
      quantity('Least', 'weight', 1, ({ min }) => min),
      quantity('Most', 'weight', 1, ({ max }) => max),
      { head: 'Fuel', cell: ({ fuel }) => (fuel ? 'burns down to its least' : '') },
    ],
    rows: stations,
  });
}

function casesTable(cases: readonly JudgedCase[], say: Quantities): Html | undefined {
  const quantity = quantityColumns(say);
  return table<JudgedCase>({
    caption: 'Loading cases',
    columns: [
      { head: 'Case', cell: ({ name }) => name },
      quantity('Take-off', 'weight', 1, ({ result }) => result.takeoff.weight),
      quantity('Arm', 'length', 2, ({ result }) => result.takeoff.arm),
      quantity('Landing', 'weight', 1, ({ result }) => result.landing.weight),
      quantity('Arm', 'length', 2, ({ result }) => result.landing.arm),
      { head: 'Verdict', cell: ({ words }) => words.verdict },
    ],
    rows: cases,
    stress: outside,
  });
}

interface WorstLine {
  readonly name: string;
  readonly loading: WorstLoading;
  readonly loads: string;
  readonly words: string;
}

/** The worst that the stations' ranges allow, with the loads that bring it about. */
function worstTable({ worst, airplane, allInside }: JudgedBalance, wording: Wording, say: Quantities): Html {
  const quantity = quantityColumns(say);
  const line = (name: string, loading: WorstLoading | undefined): WorstLine[] => {
    if (!loading) return [];
    const loads = airplane.stations
      .flatMap((station, index) =>
        loading.loads[index] ? [`${station.name} ${say.bare(loading.loads[index], 'weight', 1)}`] : [],
      )
      .join(', ');
    return [
      { name, loading, loads, words: judgedCase(airplane, name, loading.loads, undefined, wording).words.takeoff },
    ];
  };
  const rows = [
    ...line('Most forward', worst.forward),
    ...line('Most aft', worst.aft),
    ...line('Nearest the forward limit', worst.forwardMargin),
    ...line('Nearest the aft limit', worst.aftMargin),
    ...line('Heaviest', worst.heaviest),
    ...line('Lightest', worst.lightest),
  ];
  return join(
    subheading('The worst that the stations allow'),
    paragraph(
      allInside
        ? 'Every loading within the stations’ ranges is inside the envelope.'
        : 'Loadings within the stations’ ranges can be outside the envelope: load by a case, or narrow the ranges.',
    ),
    table<WorstLine>({
      columns: [
        { head: 'Loading', cell: ({ name }) => name },
        quantity('Weight', 'weight', 1, ({ loading }) => loading.weight),
        quantity('Arm', 'length', 2, ({ loading }) => loading.arm),
        { head: 'Against the envelope', cell: ({ words }) => words },
        { head: 'Loads', unit: say.sign('weight'), cell: ({ loads }) => loads },
      ],
      rows,
      stress: ({ loading }) => !loading.judgement.inside,
    }),
  );
}
