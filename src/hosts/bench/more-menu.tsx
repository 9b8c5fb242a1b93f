/** What is done with a workbook beside opening and saving it. */
import { Entry, ListButton } from './list-button';
import type { Session } from './session';

export function MoreMenu({ session, disabled }: { readonly session: Session; readonly disabled: boolean }) {
  return (
    <ListButton id="more-list" title="More …" about="More to do with the workbook" disabled={disabled}>
      <Entry
        onClick={() => void session.saveValues()}
        title="Save as values"
        about="A copy for those who have no Tarebook: TARE formulas become values, ordinary formulas stay"
      />
      <Entry
        onClick={() => session.print()}
        title="Print sheet"
        about="The cells of the sheet in view, landscape, as wide as the page"
      />
    </ListButton>
  );
}
