/** One self-contained page of a project: weights, rivets, costs, weighing and loading, with pictures, sources and what is wrong. */
import { LIMITS_CAUTION } from '../core/balance';
import { GROWTH_SOURCE } from '../core/mass';
import { CostSum } from '../core/price';
import { quantities } from '../core/quantity';
import {
  balanceModels,
  currencyOfItems,
  restingSentence,
  summarise,
  weightsModel,
  type BalanceModel,
  type Problem,
  type ProjectSheets,
  type Resting,
  type WeightsModel,
} from '../project';
import { loadingSection, weighingSection } from './balance-part';
import { heading, join, list, page, paragraph, section, type Html } from './html';
import { costsSection, hardwareSection, rivetsSection } from './joints-part';
import { budgetSection, componentsSection, heaviestSection, logSection, scaleSection } from './weights-part';

export interface ReportInput {
  /** The project's name or its file's. */
  readonly title: string;
  /** "2026-03-31" */
  readonly date: string;
  readonly sheets: ProjectSheets;
  /** What rests on formulas that were not calculated. */
  readonly resting?: Resting;
  /** Formulas of the workbook, for the list of sources. */
  readonly formulas?: Iterable<string>;
  /** Where a worksheet function (its name without TARE.) takes its figures from; undefined: not known. */
  readonly sourceOf?: (name: string) => string | undefined;
}

const NO_WEIGHING = 'An estimate is not a weighing.';
const JOINTS_CAUTION =
  'Structural joints come from the designer’s drawings; local rules and licensed inspection come first.';

/** The page as text; undefined where the workbook has neither a parts list nor an airplane to weigh or load. */
// eslint-disable-next-line complexity -- each part may be missing
export function reportHtml({
  title,
  date,
  sheets,
  resting,
  formulas = [],
  sourceOf = () => undefined,
}: ReportInput): string | undefined {
  const { values, names, units, prices } = sheets;
  const summary = summarise(values, units, prices?.book);
  const weights = weightsModel(values, units);
  const airplanes = balanceModels(values, names);
  if (!summary && airplanes.length === 0) return undefined;
  const currency = prices?.currency ?? '';
  const judges = airplanes.some(({ judged }) => judged);
  return page(
    title,
    join(
      heading(title),
      paragraph(`Report of ${date}`),
      paragraph(`${judges ? LIMITS_CAUTION : NO_WEIGHING} ${JOINTS_CAUTION}`, 'caution'),
      resting && restingSection(resting),
      summary && componentsSection(summary, currency),
      weights && (weights.total.budget !== undefined || weights.total.worst > 0) && budgetSection(weights),
      weights && scaleSection(weights),
      weights && logSection(weights),
      weights && heaviestSection(weights),
      rivetsSection(sheets, summary?.rivetCosts ?? new CostSum(), quantities(units)),
      hardwareSection(sheets, summary?.hardwareCosts ?? new CostSum(), quantities(units)),
      weights && summary && costsSection(weights.parts, summary, currency, currencyOfItems(prices?.book)),
      ...airplanes.flatMap((airplane, index) => [
        weighingSection(airplane, weights !== undefined || index > 0),
        loadingSection(airplane),
      ]),
      sourcesSection(formulas, sourceOf, weights, airplanes),
      problemsSection([
        ...(summary?.problems ?? []),
        ...(weights?.problems ?? []),
        ...airplanes.flatMap(({ problems }) => problems),
      ]),
    ),
  );
}

/** Each source once, with the functions of the workbook that rest on it. */
function sourcesSection(
  formulas: Iterable<string>,
  sourceOf: (name: string) => string | undefined,
  weights: WeightsModel | undefined,
  airplanes: readonly BalanceModel[],
): Html | undefined {
  const used = new Set<string>();
  for (const formula of formulas)
    for (const [, name] of formula.matchAll(/TARE\.([A-Z0-9.]+)\s*\(/gi)) used.add(name!.toUpperCase());
  const bySource = new Map<string, string[]>();
  for (const name of [...used].sort()) {
    const source = sourceOf(name);
    if (source !== undefined) bySource.set(source, [...(bySource.get(source) ?? []), name]);
  }
  const said = (source: string): string =>
    source === 'definition' ? 'Definitions of geometry and arithmetic' : source;
  const lines = [...bySource]
    .sort(([a], [b]) => said(a).localeCompare(said(b)))
    .map(([source, functions]) => `${said(source)}: ${functions.join(', ')}`);
  if (weights && !weights.allowances.own) lines.push(GROWTH_SOURCE);
  for (const { airplane, envelopeSheet } of airplanes)
    if (envelopeSheet?.limitsFrom) lines.push(`Limits${airplane ? `, ${airplane}` : ''}: ${envelopeSheet.limitsFrom}`);
  return lines.length === 0 ? undefined : section('Sources', list(lines));
}

/** As many cells are named. */
const MOST_SAID = 20;

/** The figures that say so stand below it. */
function restingSection({ components, sheets, marked }: Resting): Html | undefined {
  if (marked.length === 0) return undefined;
  const names = [...components].join(', ');
  const said = marked.slice(0, MOST_SAID).map(restingSentence);
  if (marked.length > MOST_SAID) said.push(`${marked.length - MOST_SAID} more cells are not recalculated`);
  return section(
    'Not recalculated',
    join(
      components.size > 0 &&
        paragraph(`The figures of ${names} and the totals rest on formulas that could not be recalculated.`, 'caution'),
      sheets.size > 0 &&
        paragraph(
          `The figures of ${[...sheets].join(', ')} rest on formulas that could not be recalculated.`,
          'caution',
        ),
      list(said),
    ),
  );
}

function problemsSection(problems: readonly Problem[]): Html {
  const lines = [...new Set(problems.map(({ sheet, cell, message }) => `${sheet}!${cell} ${message}`))];
  return section('Problems found', lines.length === 0 ? paragraph('None.') : list(lines));
}
