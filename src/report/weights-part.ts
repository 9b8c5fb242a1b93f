/** The report's sections on weights: components, budget, scale against list, log, heaviest parts. */
import { quantities, writeEnglish, type Quantities } from '../core/quantity';
import { budgetPicture, logPicture, marginWords, paretoPicture } from '../pictures';
import {
  bySizeSentence,
  logOf,
  withBias,
  type BiasedWeight,
  type ComponentSummary,
  type ComponentWeights,
  type HeavyPart,
  type LogEntry,
  type ProjectSummary,
  type WeighedDifference,
  type WeightsModel,
} from '../project';
import { budgetData, logData, paretoData } from './figures';
import {
  costColumn,
  figure,
  join,
  numberColumn,
  orBlank,
  paragraph,
  quantityColumns,
  section,
  subheading,
  table,
  type Html,
} from './html';

/** Pixels that a picture over the whole width of the paper is laid out for. */
export const FULL = 660;
const HEAVIEST = 12;

export function componentsSection({ components, total, units, bySize }: ProjectSummary, currency: string): Html {
  const quantity = quantityColumns(quantities(units));
  return section(
    'Components',
    table<ComponentSummary>({
      columns: [
        { head: 'Component', cell: ({ name }) => name },
        numberColumn('Parts', undefined, 0, ({ parts }) => parts),
        ...(total.rivets === 0 ? [] : [numberColumn<ComponentSummary>('Rivets', undefined, 0, ({ rivets }) => rivets)]),
        quantity('Now', 'weight', 2, ({ weight }) => weight),
        quantity('Arm', 'length', 2, ({ arm }) => arm),
        quantity('Moment', 'moment', 1, ({ moment }) => moment),
        ...(total.cost === 0 ? [] : [costColumn<ComponentSummary>(currency, ({ costs }) => costs)]),
      ],
      rows: components,
      total,
    }) ?? paragraph('The parts list has no row yet.'),
    bySize > 0 && paragraph(bySizeSentence(bySize), 'note'),
  );
}

export function budgetSection(model: WeightsModel): Html {
  const { components, total, allowances, tolerancedPercent, units } = model;
  const say = quantities(units);
  const quantity = quantityColumns(say);
  const hasBand = total.worst > 0;
  const columns = [
    { head: 'Component', cell: ({ name }: ComponentWeights) => name },
    quantity<ComponentWeights>('Now', 'weight', 2, ({ current }) => current),
    ...(hasBand
      ? [
          quantity<ComponentWeights>('±', 'weight', 2, ({ rootSum }) => rootSum, 'root sum'),
          quantity<ComponentWeights>('±', 'weight', 2, ({ worst }) => worst, 'worst'),
        ]
      : []),
    quantity<ComponentWeights>('Forecast', 'weight', 2, ({ forecast }) => forecast),
    quantity<ComponentWeights>('Budget', 'weight', 2, ({ budget }) => budget),
    quantity<ComponentWeights>('Margin', 'weight', 2, ({ margin }) => margin),
    numberColumn<ComponentWeights>('Margin', '%', 1, ({ marginPercent }) => marginPercent),
    numberColumn<ComponentWeights>('Weighed', '%', 0, ({ weighedPercent }) => weighedPercent),
    { head: 'In words', cell: (row: ComponentWeights) => marginWords(row, say, 2) },
  ];
  return section(
    'Against the design weight',
    table({ columns, rows: components, total, stress: ({ margin }) => margin !== undefined && margin < 0 }),
    paragraph(
      `Margin is budget less forecast; now is what the list weighs today. Forecast: the weight now and a growth allowance by status: ${allowances.list.map(({ status, fraction }) => `${status} ${writeEnglish(100 * fraction, 0)} %`).join(', ')}${allowances.own ? ' (the project’s own table)' : ''}.`,
      'note',
    ),
    hasBand &&
      paragraph(
        `±: from the tolerances of the rows, stated for ${orBlank(tolerancedPercent, 0)} % of the weight. Root sum: the root of the sum of their squares, rows of one material and thickness taken to err alike; of mill limits it is a limit of the same kind and no likelihood. Worst has every error the same way.`,
        'note',
      ),
    figure(budgetPicture(budgetData(model), { width: FULL })),
  );
}

export function scaleSection(model: WeightsModel): Html | undefined {
  const { differences, bias, biasCertain, units } = model;
  if (!bias) return undefined;
  const say = quantities(units);
  const quantity = quantityColumns(say);
  const percent = writeEnglish(100 * Math.abs(bias.fraction), 1);
  const runs = bias.fraction >= 0 ? 'heavier' : 'lighter';
  const sure =
    bias.plusMinus === undefined
      ? 'One part alone tells nothing of scatter.'
      : `± ${writeEnglish(100 * bias.plusMinus, 1)} % with 95 % confidence: ${biasCertain ? 'more than chance' : 'this may be chance'}.`;
  return section(
    'Parts on the scale',
    paragraph(
      `${bias.parts} ${bias.parts === 1 ? 'part comes' : 'parts come'} out ${percent} % ${runs} than listed. ${sure}`,
    ),
    table<WeighedDifference>({
      columns: [
        { head: 'Part', cell: ({ part }) => part },
        { head: 'Component', cell: ({ component }) => component },
        quantity('Computed', 'weight', 3, ({ computed }) => computed),
        quantity('Weighed', 'weight', 3, ({ weighed }) => weighed),
        {
          head: 'Difference',
          unit: say.sign('weight'),
          number: true,
          cell: ({ difference }) => signed(difference, say.bare(difference, 'weight', 3)),
        },
        {
          head: 'Difference',
          unit: '%',
          number: true,
          cell: ({ differencePercent }) => signed(differencePercent, writeEnglish(differencePercent, 1)),
        },
      ],
      rows: differences,
    }),
    biasCertain && biasTable(withBias(model), say),
  );
}

const signed = (value: number, words: string): string => `${value > 0 ? '+' : ''}${words}`;

function biasTable(rows: readonly BiasedWeight[], say: Quantities): Html | undefined {
  const quantity = quantityColumns(say);
  const unit = say.sign('weight');
  return join(
    subheading('If the rest comes out like the parts that were weighed'),
    table<BiasedWeight>({
      columns: [
        { head: 'Component', cell: ({ name }) => name },
        quantity('Not yet weighed', 'weight', 2, ({ rest }) => rest, `${unit}, listed`),
        quantity('Expected', 'weight', 2, ({ corrected }) => corrected.weight),
        quantity('±', 'weight', 2, ({ corrected }) => corrected.plusMinus, `${unit}, 95 %`),
        quantity('With what is weighed', 'weight', 2, ({ weight }) => weight),
      ],
      rows: rows.slice(0, -1),
      ...(rows.length > 0 ? { total: rows.at(-1)! } : {}),
    }),
  );
}

export function logSection({ log }: WeightsModel): Html | undefined {
  if (!log || log.entries.length === 0) return undefined;
  const quantity = quantityColumns(quantities(log.units));
  return section(
    'Weight over time',
    figure(logPicture(logData(log), { width: FULL })),
    table<LogEntry>({
      columns: [
        { head: 'Date', cell: ({ date }) => date },
        quantity('Listed', 'weight', 2, ({ weight }) => weight),
        quantity('Forecast', 'weight', 2, ({ forecast }) => forecast),
        quantity('Budget', 'weight', 2, ({ budget }) => budget),
        { head: 'Note', cell: ({ note }) => note },
      ],
      rows: logOf(log.entries),
    }),
  );
}

export function heaviestSection(model: WeightsModel): Html | undefined {
  if (model.heaviest.length === 0) return undefined;
  const quantity = quantityColumns(quantities(model.units));
  return section(
    'Heaviest parts',
    table<HeavyPart>({
      columns: [
        { head: 'Part', cell: ({ part }) => part },
        { head: 'Component', cell: ({ component }) => component },
        quantity('Weight', 'weight', 3, ({ weight }) => weight),
        numberColumn('Share', '%', 1, ({ percent }) => percent),
        numberColumn('Together', '%', 1, ({ together }) => together),
      ],
      rows: model.heaviest.slice(0, HEAVIEST),
    }),
    figure(paretoPicture(paretoData(model, HEAVIEST), { width: FULL })),
  );
}
