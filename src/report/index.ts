export { budgetData, envelopeCase, envelopeData, logData, paretoData, percentOfChord } from './figures';
export { reportHtml, type ReportInput } from './report';
