import { CellExtrasLine } from './extras/cell-extras';
import type { Extras } from './extras/extras';
import type { KeptStatus, Session } from './session';
import { useStore } from '../../pane/shared/store';

interface Props {
  readonly session: Session;
  readonly extras: Extras;
  readonly explains: boolean;
}

/** What the selected row comes to, what is not recalculated, where the edits are, and, with the pane hidden, what is wrong in the selected cell. */
export function StatusLine({ session, extras, explains }: Props) {
  const { busy, kept, selected, workbook, uncalculated, fault, calculated, isStopped } = useStore(session);
  return (
    <footer className="status">
      <CellExtrasLine extras={extras} />
      <span className="status-cell" role="status" aria-label="Selected cell">
        {explains && selected.explanation ? (
          <span className="status-warning">{selected.explanation}</span>
        ) : (
          selected.rowFigures
        )}
      </span>
      {calculated !== undefined && (
        <span className="status-calculation">
          <span role="status" aria-label="Calculation">{`Calculating … ${calculated} %`}</span>{' '}
          <button type="button" onClick={() => session.stopCalculation()}>
            Stop
          </button>
        </span>
      )}
      {isStopped && (
        <span className="status-warning">
          <span role="status" aria-label="Calculation">
            Calculation was stopped: cells keep older values
          </span>{' '}
          <button type="button" onClick={() => session.calculateAll()}>
            Calculate
          </button>
        </span>
      )}
      {(uncalculated > 0 || fault !== undefined) && (
        <span role="status" aria-label="Calculation" className="status-warning">
          {fault === undefined
            ? uncalculatedWords(uncalculated)
            : `Not calculated, all cells keep their values: ${fault}`}
        </span>
      )}
      <span
        role="status"
        aria-label="Where the edits are kept"
        className={kept.how === 'refused' || kept.how === 'elsewhere' ? 'status-warning' : undefined}
      >
        {busy ? `${busy} …` : workbook ? words(kept) : 'Starting …'}
      </span>
      <span className="status-keys">F6 goes on to the next part of the page</span>
      {kept.how === 'elsewhere' && (
        <button type="button" onClick={() => void session.takeOver()}>
          Edit it here
        </button>
      )}
    </footer>
  );
}

function words(kept: KeptStatus): string {
  switch (kept.how) {
    case 'unedited':
      return 'No edits yet';
    case 'waiting':
      return 'Keeping …';
    case 'kept':
      return `Kept in this browser ${timeOf(kept.at)}`;
    case 'refused':
      return `Not kept in this browser: save as .xlsx before you close the page. ${kept.why}`;
    case 'elsewhere':
      return 'Open in another tab: edits made here are not kept in this browser';
  }
}

const uncalculatedWords = (cells: number): string =>
  cells === 1 ? '1 cell is not recalculated' : `${cells} cells are not recalculated`;

function timeOf(at: number): string {
  const then = new Date(at);
  const time = then.toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });
  return then.toDateString() === new Date().toDateString() ? time : `${then.toLocaleDateString()} ${time}`;
}
