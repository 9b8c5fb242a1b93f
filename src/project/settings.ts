/** What sheets of settings (Buying, Rivet options, the head of a weighing) are read with: numbers beside their labels, rows of their lists. */
import { cellName, isBlank } from '../sheet';
import type { Fact } from './facts';
import type { Problem } from './reading';
import { isWithin, RowReader, type FormRow, type FormSheet, type NumberRule } from './rows';

/** The number of a fact of a sheet; undefined where it is blank, or where it is refused, with a problem in those words. */
export function factNumber(
  sheet: string,
  fact: Fact | undefined,
  within: Omit<NumberRule, 'takes'>,
  said: (fact: Fact) => string,
  problems: Problem[],
): number | undefined {
  if (!fact || isBlank(fact.value)) return undefined;
  if (isWithin(fact.value, within)) return fact.value;
  problems.push({ sheet, cell: cellName(fact.row, fact.column), message: said(fact) });
  return undefined;
}

/** What is read of each row of a list; nothing where there is no list. */
export function eachRow<K extends string, T>(
  list: FormSheet<K> | undefined,
  problems: Problem[],
  read: (row: FormRow<K>, reader: RowReader<K>) => readonly T[],
): T[] {
  const reader = list && new RowReader(list, problems);
  return reader ? list.rows.flatMap((row) => read(row, reader)) : [];
}
