/**
 * What is typed into a cell is what the cell gets. The engine's editor writes numbers, names and brackets of a typed
 * formula anew before it stores it, and cuts texts behind a number at shifted places; it is given a reader here that
 * finds nothing to write anew, so that the text goes on as it was typed.
 */
import { EditingRenderController } from '@univerjs/sheets-ui';
import { LexerTreeBuilder } from '@univerjs/engine-formula';

const AS_TYPED = {
  sequenceNodesBuilder: () => undefined,
  checkIfAddBracket: () => 0,
} as unknown as LexerTreeBuilder;

type Services = ConstructorParameters<typeof EditingRenderController>;

/** Where the editor's constructor takes the reader of formulas. */
const READER = 5;

class EditingAsTyped extends EditingRenderController {
  constructor(...services: Services) {
    if (!(services[READER] instanceof LexerTreeBuilder))
      throw new Error('The spreadsheet’s editor takes its services in another order. See src/hosts/bench/editing.ts.');
    super(...(services.with(READER, AS_TYPED) as Services));
  }
}

/** For the configuration of the engine's sheets. */
export const EDITING_AS_TYPED = [[EditingRenderController, { useClass: EditingAsTyped }]] as const;
