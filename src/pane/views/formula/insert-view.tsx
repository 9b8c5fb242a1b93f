/** The view 'Formula': a function is chosen, filled in with numbers or cells, seen, and inserted into the sheet. */
import { StepFoot } from '../../shared/step-foot';
import { useTab, undoKeys } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { Form } from './form';
import { InsertStore } from './insert-store';
import { Picker } from './picker';

export function InsertView({ pane }: { readonly pane: PaneContext }) {
  const [store, { definition, message }] = useTab(() => new InsertStore(pane));
  return (
    <div style={{ display: 'contents' }} onKeyDown={undoKeys(store)}>
      {definition ? (
        <Form key={definition.name} store={store} definition={definition} helpUrl={pane.helpUrl} />
      ) : (
        <Picker store={store} />
      )}
      <StepFoot store={store} message={message} />
    </div>
  );
}
