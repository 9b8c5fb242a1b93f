/** Numbers as the view says them. */
import { INCH_POUND, sayNumber } from '../../core/balance';

export const pounds = INCH_POUND.weight;
export const inches = INCH_POUND.arm;
export const moment = (value: number): string => `${sayNumber(value, 1)} lb·in`;
export const percent = (value: number): string => `${sayNumber(value, 1)} %`;

/** Without the unit, where the column's head has it. */
export const bare = sayNumber;

/** As it is typed: 250, 72.5. */
export const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 1 });
