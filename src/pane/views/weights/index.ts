export { WeightsView as Body } from './weights-view';
