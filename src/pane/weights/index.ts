import type { View } from '../view';
import { WeightsView } from './weights-view';

export const weightsView: View = { id: 'weights', label: 'Weights', Body: WeightsView };
