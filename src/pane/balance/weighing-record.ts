/** The weighing as a page of its own, to print and to sign: everything that it rests on, and what follows. */
import { LIMITS_CAUTION } from '../../core/balance';
import type { Weighing } from '../../workbook';
import { bare, inches, moment, percent, pounds } from './numbers';

const escape = (text: string): string => text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);

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

const numeric = (cell: string, tag = 'td'): string => `<${tag} class="n">${escape(cell)}</${tag}>`;
const head = (first: string, labels: readonly string[]): string => `<thead><tr><th scope="col">${first}</th>${labels.map((label) => `<th scope="col" class="n">${label}</th>`).join('')}</tr></thead>`;
const line = ([first, ...rest]: Line, result = false): string => `<tr${result ? ' class="result"' : ''}><th scope="row">${escape(String(first))}</th>${rest.map((cell) => numeric(String(cell))).join('')}</tr>`;

/** The record's body; undefined where the scales show no weight yet. */
export function recordBody({ airplane, record, result, problems }: Weighing, today: string): string | undefined {
  if (!result) return undefined;
  const { corrections = [] } = record;
  const facts: readonly (readonly [string, string])[] = [
    ['Airplane', airplane || 'not stated'],
    ['Weighed on', record.date ?? 'not stated'],
    ['Gear', record.gear],
    ['Level found by', record.levelNote ?? 'not stated'],
    ['Scales', record.scales ?? 'not stated'],
    ...(record.chord ? ([['Mean aerodynamic chord', `${inches(record.chord.mac)}, leading edge at ${inches(record.chord.lemac)}`]] as const) : []),
  ];
  const sum = (label: string, { weight, arm, moment: product }: { weight: number; arm: number; moment: number }): Line => [label, '', '', bare(weight, 1), bare(arm, 2), bare(product, 1)];
  return [
    `<h1>Weighing record</h1>`,
    `<table><tbody>${facts.map(([label, value]) => `<tr><th scope="row">${label}</th><td>${escape(value)}</td></tr>`).join('')}</tbody></table>`,
    `<h2>On the scales</h2><table>${head('Point', ['Reading (lb)', 'Tare (lb)', 'Net (lb)', 'Arm (in)', 'Moment (lb·in)'])}<tbody>`,
    ...result.points.map((point) => line([point.name, bare(point.reading, 1), bare(point.tare, 1), bare(point.net, 1), bare(point.arm, 2), bare(point.moment, 1)])),
    line(sum('As weighed', result.asWeighed), true),
    '</tbody></table>',
    ...(corrections.length > 0
      ? [
          `<h2>Corrections</h2><table>${head('What', ['Weight (lb)', 'Arm (in)', 'Moment (lb·in)'])}<tbody>`,
          ...corrections.map(({ name, weight, arm }) => line([name, bare(weight, 1), bare(arm, 2), bare(weight * arm, 1)])),
          '</tbody></table>',
        ]
      : []),
    `<h2>Empty</h2><table><tbody class="result">`,
    line(['Weight', pounds(result.weight)], true),
    line(['Arm, aft of the datum', inches(result.arm)], true),
    line(['Moment', moment(result.moment)], true),
    ...(result.percentMac === undefined ? [] : [line(['Arm on the mean aerodynamic chord', percent(result.percentMac)], true)]),
    '</tbody></table>',
    ...(problems.length > 0 ? [`<p>Not settled on the sheet: ${problems.map(({ cell, message }) => escape(`${cell} ${message}`)).join('; ')}.</p>`] : []),
    `<p>${LIMITS_CAUTION} Printed ${escape(today)}.</p>`,
    '<div class="sign"><span>Weighed by</span><span>Date</span><span>Checked by</span></div>',
  ].join('\n');
}

/** The record as a file. */
export const recordPage = (body: string, title: string): string =>
  `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>${escape(title)}</title><style>${RECORD_STYLES}</style></head>\n<body><main class="record">\n${body}\n</main></body></html>\n`;
