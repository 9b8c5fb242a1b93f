/** The report's sections on weights: components, budget, scale against list, log, heaviest parts. */
import { budgetPicture, fixed, logPicture, marginWords, paretoPicture } from '../pictures';
import { logOf, withBias, type BiasedWeight, type ComponentSummary, type ComponentWeights, type HeavyPart, type LogEntry, type ProjectSummary, type WeighedDifference, type WeightsModel } from '../workbook';
import { budgetData, logData, paretoData } from './figures';
import { figure, join, paragraph, section, subheading, table, type Html } from './html';
import { orBlank } from './numbers';

/** Pixels that a picture over the whole width of the paper is laid out for. */
export const FULL = 660;
const HEAVIEST = 12;

export const componentsSection = ({ components, total }: ProjectSummary, currency: string): Html =>
  section(
    'Components',
    table<ComponentSummary>({
      columns: [
        { head: 'Component', cell: ({ name }) => name },
        { head: 'Parts', number: true, cell: ({ parts }) => fixed(parts, 0) },
        ...(total.rivets === 0 ? [] : [{ head: 'Rivets', number: true, cell: ({ rivets }: ComponentSummary) => fixed(rivets, 0) }]),
        { head: 'Weight', unit: 'lb', number: true, cell: ({ weight }) => fixed(weight, 2) },
        { head: 'Arm', unit: 'in', number: true, cell: ({ arm }) => orBlank(arm, 2) },
        { head: 'Moment', unit: 'lb·in', number: true, cell: ({ moment }) => fixed(moment, 1) },
        ...(total.cost === 0 ? [] : [{ head: 'Cost', unit: currency, number: true, cell: ({ cost }: ComponentSummary) => fixed(cost, 2) }]),
      ],
      rows: components,
      total,
    }) ?? paragraph('The parts list has no row yet.'),
  );

export function budgetSection(model: WeightsModel): Html {
  const { components, total, allowances, tolerancedPercent } = model;
  const hasBand = total.worst > 0;
  const columns = [
    { head: 'Component', cell: ({ name }: ComponentWeights) => name },
    { head: 'Now', unit: 'lb', number: true, cell: ({ current }: ComponentWeights) => fixed(current, 2) },
    ...(hasBand
      ? [
          { head: '±', unit: 'likely', number: true, cell: ({ likely }: ComponentWeights) => fixed(likely, 2) },
          { head: '±', unit: 'worst', number: true, cell: ({ worst }: ComponentWeights) => fixed(worst, 2) },
        ]
      : []),
    { head: 'Forecast', unit: 'lb', number: true, cell: ({ forecast }: ComponentWeights) => fixed(forecast, 2) },
    { head: 'Budget', unit: 'lb', number: true, cell: ({ budget }: ComponentWeights) => orBlank(budget, 2) },
    { head: 'Margin', unit: '%', number: true, cell: ({ marginPercent }: ComponentWeights) => orBlank(marginPercent, 1) },
    { head: 'Weighed', unit: '%', number: true, cell: ({ weighedPercent }: ComponentWeights) => orBlank(weighedPercent, 0) },
    { head: 'In words', cell: (row: ComponentWeights) => marginWords(row, 'lb', 2) },
  ];
  return section(
    'Against the design weight',
    table({ columns, rows: components, total, stress: ({ margin }) => margin !== undefined && margin < 0 }),
    paragraph(`Forecast: the weight now and a growth allowance by status: ${allowances.list.map(({ status, fraction }) => `${status} ${fixed(100 * fraction, 0)} %`).join(', ')}${allowances.own ? ' (the project’s own table)' : ''}.`, 'note'),
    hasBand && paragraph(`±: from the tolerances of the rows, stated for ${orBlank(tolerancedPercent, 0)} % of the weight. Likely is the root of the sum of squares, rows of one material and thickness taken to err alike; worst has every error the same way.`, 'note'),
    figure(budgetPicture(budgetData(model), { width: FULL })),
  );
}

export function scaleSection(model: WeightsModel): Html | undefined {
  const { differences, bias, biasCertain } = model;
  if (!bias) return undefined;
  const percent = fixed(100 * Math.abs(bias.fraction), 1);
  const runs = bias.fraction >= 0 ? 'heavier' : 'lighter';
  const sure =
    bias.plusMinus === undefined
      ? 'One part alone tells nothing of scatter.'
      : `± ${fixed(100 * bias.plusMinus, 1)} % with 95 % confidence: ${biasCertain ? 'more than chance' : 'this may be chance'}.`;
  return section(
    'Parts on the scale',
    paragraph(`${bias.parts} ${bias.parts === 1 ? 'part comes' : 'parts come'} out ${percent} % ${runs} than listed. ${sure}`),
    table<WeighedDifference>({
      columns: [
        { head: 'Part', cell: ({ part }) => part },
        { head: 'Component', cell: ({ component }) => component },
        { head: 'Computed', unit: 'lb', number: true, cell: ({ computed }) => fixed(computed, 3) },
        { head: 'Weighed', unit: 'lb', number: true, cell: ({ weighed }) => fixed(weighed, 3) },
        { head: 'Difference', unit: 'lb', number: true, cell: ({ difference }) => signed(difference, 3) },
        { head: 'Difference', unit: '%', number: true, cell: ({ differencePercent }) => signed(differencePercent, 1) },
      ],
      rows: differences,
    }),
    biasCertain && biasTable(withBias(model)),
  );
}

const signed = (value: number, places: number): string => `${value > 0 ? '+' : ''}${fixed(value, places)}`;

function biasTable(rows: readonly BiasedWeight[]): Html | undefined {
  return join(
    subheading('If the rest comes out like the parts that were weighed'),
    table<BiasedWeight>({
      columns: [
        { head: 'Component', cell: ({ name }) => name },
        { head: 'Not yet weighed', unit: 'lb, listed', number: true, cell: ({ rest }) => fixed(rest, 2) },
        { head: 'Expected', unit: 'lb', number: true, cell: ({ corrected }) => fixed(corrected.weight, 2) },
        { head: '±', unit: 'lb, 95 %', number: true, cell: ({ corrected }) => orBlank(corrected.plusMinus, 2) },
        { head: 'With what is weighed', unit: 'lb', number: true, cell: ({ weight }) => fixed(weight, 2) },
      ],
      rows: rows.slice(0, -1),
      ...(rows.length > 0 ? { total: rows.at(-1)! } : {}),
    }),
  );
}

export function logSection({ log }: WeightsModel): Html | undefined {
  if (!log || log.entries.length === 0) return undefined;
  return section(
    'Weight over time',
    figure(logPicture(logData(log), { width: FULL })),
    table<LogEntry>({
      columns: [
        { head: 'Date', cell: ({ date }) => date },
        { head: 'Listed', unit: 'lb', number: true, cell: ({ weight }) => fixed(weight, 2) },
        { head: 'Forecast', unit: 'lb', number: true, cell: ({ forecast }) => orBlank(forecast, 2) },
        { head: 'Budget', unit: 'lb', number: true, cell: ({ budget }) => orBlank(budget, 2) },
        { head: 'Note', cell: ({ note }) => note },
      ],
      rows: logOf(log.entries),
    }),
  );
}

export function heaviestSection(model: WeightsModel): Html | undefined {
  if (model.heaviest.length === 0) return undefined;
  return section(
    'Heaviest parts',
    table<HeavyPart>({
      columns: [
        { head: 'Part', cell: ({ part }) => part },
        { head: 'Component', cell: ({ component }) => component },
        { head: 'Weight', unit: 'lb', number: true, cell: ({ weight }) => fixed(weight, 3) },
        { head: 'Share', unit: '%', number: true, cell: ({ percent }) => orBlank(percent, 1) },
        { head: 'Together', unit: '%', number: true, cell: ({ together }) => orBlank(together, 1) },
      ],
      rows: model.heaviest.slice(0, HEAVIEST),
    }),
    figure(paretoPicture(paretoData(model, HEAVIEST), { width: FULL })),
  );
}
