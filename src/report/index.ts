export { budgetData, envelopeCase, envelopeData, logData, paretoData } from './figures';
export { reportHtml, type ReportInput } from './report';
