/** What stands in a cell until its formula has been calculated. */
export abstract class Awaited {}

/** Thrown by reading a cell that is not calculated yet: the formula that reads is tried again after it. */
export class NotYet extends Error {
  override readonly name = 'NotYet';
  constructor(readonly awaited: Awaited) {
    super('A cell was read before it was calculated');
  }
}
