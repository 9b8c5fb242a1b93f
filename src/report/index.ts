export { envelopeCase, percentOfChord } from './figures';
export { reportHtml, type ReportInput } from './report';
