export { budgetPicture, marginWords, type BudgetBar, type BudgetPictureData } from './budget-picture';
export { paretoPicture, type ParetoPart, type ParetoPictureData } from './pareto-picture';
export { logPicture, type LogPictureData, type LogPoint } from './log-picture';
export { envelopePicture, type EnvelopeCase, type EnvelopePictureData } from './envelope-picture';
export { costPicture, type CostOption, type CostPictureData } from './cost-picture';
export type { PictureOptions, Words } from './frame';
