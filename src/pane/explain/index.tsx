/** A quiet line at the foot of the pane: what is wrong in the selected cell, or why its value was not recalculated, in words; or what its row comes to. */
import { Link, makeStyles, tokens } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { readRowFigures, rowFiguresText } from '../../project';
import {
  followSelection,
  fullName,
  type ErrorCode,
  type RangeAddress,
  type Unsubscribe,
  type Workbook,
} from '../../sheet';
import { mark, t, writeNumber, type Marked } from '../locale';
import { refusal } from '../shared/refusal';
import { Store, useStore } from '../shared/store';
import type { PaneContext } from '../shared/view';

interface Explanation {
  /** "Parts!C3" */
  readonly cell: string;
  /** undefined: the cell shows no error, but a value that was not recalculated. */
  readonly code?: ErrorCode;
  /** The TARE function of the formula, without its namespace; '' where it has none. */
  readonly functionName: string;
  readonly text: string;
  /** True for a function's own message, which is in English whatever the pane is in. */
  readonly own: boolean;
}

interface ExplainState {
  readonly explanation?: Explanation | undefined;
  /** What the row comes to; the bench says it in its own line. */
  readonly rowFigures?: string | undefined;
}

/** What the spreadsheet's own errors mean, where no function of ours gave one. */
const PLAIN: Readonly<Record<ErrorCode, Marked>> = {
  '#VALUE!': mark('A value in the formula is of the wrong kind: a text where a number is needed, for instance.'),
  '#N/A': mark('A name that is looked up is not in its table.'),
  '#NUM!': mark('A number is outside the range that the formula takes.'),
  '#REF!': mark('The formula uses cells that were deleted.'),
  '#NAME?': mark('The formula uses an unknown name. Check the spelling, and that the add-in is on.'),
  '#DIV/0!': mark('The formula divides by zero or by a blank cell.'),
  '#NULL!': mark('The formula names two ranges that do not meet: is there a space instead of a comma?'),
  '#SPILL!': mark('The result needs more cells than are free: clear the cells below and to the right.'),
  '#CALC!': mark('The formula gives no result that a cell can hold.'),
};

class ExplainStore extends Store<ExplainState> {
  constructor(private readonly workbook: Workbook) {
    super({});
  }

  /** Follows the selection; gives what ends that. */
  start(): Unsubscribe {
    return followSelection(
      this.workbook,
      async (range): Promise<ExplainState> => {
        const explanation = range && (await this.explain(range));
        return { explanation, rowFigures: range && !explanation ? await this.comesTo(range) : undefined };
      },
      (said) => {
        if (said.explanation !== this.state.explanation || said.rowFigures !== this.state.rowFigures) this.set(said);
      },
    );
  }

  private async explain({ sheet, row, column }: RangeAddress): Promise<Explanation | undefined> {
    const one = { sheet, row, column, rows: 1, columns: 1 };
    const cell = fullName(one);
    try {
      const value = (await this.workbook.read(one))[0]?.[0];
      if (typeof value !== 'object' || value === null) return await this.uncalculated(one, cell);
      const said = value.message || (await this.workbook.explain(sheet, row, column));
      return {
        cell,
        code: value.code,
        functionName: functionIn(await this.formulaAt(one)),
        text: said || t(PLAIN[value.code]),
        own: Boolean(said),
      };
    } catch (error) {
      return {
        cell,
        code: '#VALUE!',
        functionName: '',
        text: `${t('The cell could not be read.')} ${refusal(error)}`,
        own: false,
      };
    }
  }

  private async comesTo({ sheet, row }: RangeAddress): Promise<string | undefined> {
    if (this.workbook.host === 'bench') return undefined;
    const figures = await readRowFigures(this.workbook, sheet, row).catch(() => undefined);
    return figures && rowFiguresText(figures, writeNumber);
  }

  /** Excel calculates everything itself, and is not asked. */
  private async uncalculated({ sheet, row, column }: RangeAddress, cell: string): Promise<Explanation | undefined> {
    const said = this.workbook.host === 'excel' ? undefined : await this.workbook.explain(sheet, row, column);
    return said === undefined ? undefined : { cell, functionName: '', text: said, own: true };
  }

  /** The formula of a cell, or the one above it whose column of results may reach down to it. */
  private async formulaAt(one: RangeAddress): Promise<string> {
    const above = await this.workbook.readFormulas({ ...one, row: 0, rows: one.row + 1 });
    return above.findLast(([formula]) => formula !== null)?.[0] ?? '';
  }
}

/** The first TARE function that a formula calls: "WEIGHT.SHEET". */
const functionIn = (formula: string): string => /TARE\.([A-Z0-9.]+)\s*\(/i.exec(formula)?.[1]?.toUpperCase() ?? '';

const useStyles = makeStyles({
  line: {
    borderTop: `1px solid ${tokens.colorNeutralStroke2}`,
    backgroundColor: tokens.colorNeutralBackground2,
    padding: '6px 12px',
    flexShrink: 0,
    overflowWrap: 'break-word',
  },
  head: { fontWeight: tokens.fontWeightSemibold },
});

const NAMESPACE = 'TARE.';

/** A quiet line at the foot of the pane: why the selected cell shows an error, or what its row comes to. */
export function ExplainLine({ pane }: { readonly pane: PaneContext }) {
  const [store] = useState(() => new ExplainStore(pane.workbook));
  useEffect(() => store.start(), [store]);
  const { explanation, rowFigures } = useStore(store);
  const styles = useStyles();
  // What has no such name has no page either.
  const isKnown = explanation?.functionName && explanation.code !== '#NAME?';
  const help = isKnown ? pane.helpUrl?.(explanation.functionName) : undefined;
  return (
    <div
      role="status"
      aria-label={t('The selected cell')}
      className={explanation || rowFigures ? styles.line : undefined}
    >
      {explanation ? (
        <>
          <span className={styles.head}>
            {explanation.cell} {explanation.code}
            {explanation.functionName && ` ${NAMESPACE}${explanation.functionName}`}
          </span>
          <br />
          <span lang={explanation.own ? 'en' : undefined}>{explanation.text}</span>
          {help && (
            <>
              {' '}
              <Link href={help} target="_blank" rel="noreferrer" inline>
                {t('About {name}', { name: explanation.functionName })}
              </Link>
            </>
          )}
        </>
      ) : (
        rowFigures
      )}
    </div>
  );
}
