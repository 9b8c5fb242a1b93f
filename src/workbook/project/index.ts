export { BUDGET, JOINTS, PARTS, STATUSES, plainLabel, type FormColumn, type SheetForm } from './forms';
export { numberIn, readForm, textIn, type FormRow, type FormSheet } from './rows';
export { summarise, type ComponentSummary, type Problem, type ProjectSummary } from './summary';
