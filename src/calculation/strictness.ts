/**
 * Where it is on, a formula that reads a cell which it does not declare fails. The tests switch it on: what a formula
 * does not declare is not calculated again when it changes.
 */
export const strictness = { isOn: false };
