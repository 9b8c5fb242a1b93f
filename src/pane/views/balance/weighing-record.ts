/** The weighing as a page of its own, to print and to sign: everything that it rests on, and what follows. */
import { escapeMarkup } from '../../../core/markup';
import type { UnitSystem } from '../../../core/quantity';
import type { Weighing } from '../../../project';
import { localeOf, t } from '../../locale';
import { sayIn } from '../../shared/quantities';
import { bareIn, percent, limitsCaution } from './balance-words';

/** Looks of the record, all under one class, so that it can be printed out of another page as well. */
export const RECORD_STYLES = `
.record { font: 11pt/1.4 system-ui, sans-serif; color: #000; background: #fff; max-width: 180mm; margin: 0 auto; }
.record h1 { font-size: 17pt; margin: 0 0 4mm; }
.record h2 { font-size: 12pt; margin: 6mm 0 2mm; }
.record table { border-collapse: collapse; width: 100%; page-break-inside: avoid; }
.record th, .record td { border-bottom: 0.3mm solid #999; padding: 1.2mm 2mm 1.2mm 0; text-align: left; vertical-align: top; font-weight: normal; }
.record thead th { font-weight: 600; border-bottom-color: #000; }
.record .n { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
.record .result td, .record .result th { font-weight: 600; }
.record .sign { display: flex; gap: 12mm; margin-top: 14mm; }
.record .sign span { flex: 1; border-top: 0.3mm solid #000; padding-top: 1mm; }
@page { margin: 16mm; }
`;

type Line = readonly (string | number)[];

const numeric = (cell: string, tag: 'td' | 'th scope="col"' = 'td'): string =>
  `<${tag} class="n">${escapeMarkup(cell)}</${tag.slice(0, 2)}>`;
const head = (first: string, labels: readonly string[]): string =>
  `<thead><tr><th scope="col">${escapeMarkup(first)}</th>${labels.map((label) => numeric(label, 'th scope="col"')).join('')}</tr></thead>`;
const line = ([first, ...rest]: Line, result = false): string =>
  `<tr${result ? ' class="result"' : ''}><th scope="row">${escapeMarkup(String(first))}</th>${rest.map((cell) => numeric(String(cell))).join('')}</tr>`;

/** The record's body, in the units that the weighing is in; undefined where the scales show no weight yet. */
export function recordBody(
  { airplane, record, result, problems }: Weighing,
  units: UnitSystem,
  today: string,
): string | undefined {
  if (!result) return undefined;
  const { corrections = [] } = record;
  const say = sayIn(units);
  const [weightIn, armIn, momentIn] = [bareIn(say, 'weight', 1), bareIn(say, 'length', 2), bareIn(say, 'moment', 1)];
  const [inWeight, inLength, inMoment] = [
    { unit: say.sign('weight') },
    { unit: say.sign('length') },
    { unit: say.sign('moment') },
  ];
  const heading = (text: string): string => `<h2>${escapeMarkup(text)}</h2>`;
  const unstated = t('not stated');
  const facts: readonly (readonly [string, string])[] = [
    [t('Airplane'), airplane || unstated],
    [t('Weighed on'), record.date ?? unstated],
    [t('Gear'), record.gear],
    [t('Level found by'), record.levelNote ?? unstated],
    [t('Scales'), record.scales ?? unstated],
    ...(record.chord
      ? ([
          [
            t('Mean aerodynamic chord'),
            t('{length}, leading edge at {arm}', {
              length: say.tell(record.chord.mac, 'length', 2),
              arm: say.tell(record.chord.lemac, 'length', 2),
            }),
          ],
        ] as const)
      : []),
  ];
  const sum = (label: string, { weight, arm, moment }: { weight: number; arm: number; moment: number }): Line => [
    label,
    '',
    '',
    weightIn(weight),
    armIn(arm),
    momentIn(moment),
  ];
  return [
    `<h1>${escapeMarkup(t('Weighing record'))}</h1>`,
    `<table><tbody>${facts.map(([label, value]) => `<tr><th scope="row">${escapeMarkup(label)}</th><td>${escapeMarkup(value)}</td></tr>`).join('')}</tbody></table>`,
    `${heading(t('On the scales'))}<table>${head(t('Point'), [t('Reading ({unit})', inWeight), t('Tare ({unit})', inWeight), t('Net ({unit})', inWeight), t('Arm ({unit})', inLength), t('Moment ({unit})', inMoment)])}<tbody>`,
    ...result.points.map((point) =>
      line([
        point.name,
        weightIn(point.reading),
        weightIn(point.tare),
        weightIn(point.net),
        armIn(point.arm),
        momentIn(point.moment),
      ]),
    ),
    line(sum(t('As weighed'), result.asWeighed), true),
    '</tbody></table>',
    ...(corrections.length > 0
      ? [
          `${heading(t('Corrections'))}<table>${head(t('What'), [t('Weight ({unit})', inWeight), t('Arm ({unit})', inLength), t('Moment ({unit})', inMoment)])}<tbody>`,
          ...corrections.map(({ name, weight, arm }) =>
            line([name, weightIn(weight), armIn(arm), momentIn(weight * arm)]),
          ),
          '</tbody></table>',
        ]
      : []),
    `${heading(t('Empty'))}<table><tbody class="result">`,
    line([t('Weight'), say.tell(result.weight, 'weight', 1)], true),
    line([t('Arm, aft of the datum'), say.tell(result.arm, 'length', 2)], true),
    line([t('Moment'), say.tell(result.moment, 'moment', 1)], true),
    ...(result.percentMac === undefined
      ? []
      : [
          line([t('Arm on the mean aerodynamic chord'), t('{number} %', { number: percent(result.percentMac) })], true),
        ]),
    '</tbody></table>',
    ...(problems.length > 0
      ? [
          `<p>${escapeMarkup(t('Not settled on the sheet:'))} <span lang="en">${problems.map(({ cell, message }) => escapeMarkup(`${cell} ${message}`)).join('; ')}.</span></p>`,
        ]
      : []),
    `<p>${escapeMarkup(limitsCaution())} ${escapeMarkup(t('Printed {date}.', { date: today }))}</p>`,
    `<div class="sign"><span>${escapeMarkup(t('Weighed by'))}</span><span>${escapeMarkup(t('Date'))}</span><span>${escapeMarkup(t('Checked by'))}</span></div>`,
  ].join('\n');
}

/** The record as a file. */
export const recordPage = (body: string, title: string): string =>
  `<!doctype html>\n<html lang="${escapeMarkup(localeOf().language)}"><head><meta charset="utf-8"><title>${escapeMarkup(title)}</title><style>${RECORD_STYLES}</style></head>\n<body><main class="record">\n${body}\n</main></body></html>\n`;
