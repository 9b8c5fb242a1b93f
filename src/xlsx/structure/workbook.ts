/** The workbook's own part after an edit of the structure: its sheets in order, its names, its views. */
import { RELATIONSHIPS, type Package } from '../package';
import { addSheetPart } from '../patch-workbook';
import { escapeXml } from '../xml';
import { XmlTree, type XmlElement } from '../xml-tree';
import { formulaAfter, type FormulaEdit } from './formulas';
import { drop } from './frame';

export interface SheetEntry {
  readonly element: XmlElement;
  readonly name: string;
  readonly part: string | undefined;
  /** False for a chart sheet, a macro sheet, a dialog. */
  readonly isWorksheet: boolean;
}

/** Names that a program keeps for a sheet's own settings: without cells there is no setting. */
const OWN_NAME = /^_xlnm\./i;

export class WorkbookTree extends XmlTree {
  constructor(
    private readonly file: Package,
    readonly part: string,
  ) {
    super(file.text(part));
  }

  /** All sheets in order. */
  get entries(): SheetEntry[] {
    const byId = new Map(this.file.relationships(this.part).map((one) => [one.id, one]));
    return this.sheetElements.map((element) => {
      const relationship = byId.get(element.getPrefixed('id') ?? '');
      return {
        element,
        name: element.get('name') ?? '',
        part: relationship?.target,
        isWorksheet: relationship?.type === 'worksheet',
      };
    });
  }

  /** A worksheet by its name in any case. */
  sheet(name: string): SheetEntry | undefined {
    return this.entries.find((one) => one.isWorksheet && one.name.toLowerCase() === name.toLowerCase());
  }

  followNames(edit: FormulaEdit): void {
    for (const name of this.nameElements) {
      const before = name.text;
      const after = formulaAfter(before, { sheet: '' }, edit);
      if (after === before) continue;
      const left = OWN_NAME.test(name.get('name') ?? '') && after.includes('#REF!') ? withoutGone(after) : after;
      if (left === '') this.dropName(name);
      else name.text = left;
    }
  }

  /** Takes a sheet out of the list, with the names that hold on it. */
  remove(entry: SheetEntry): void {
    const id = entry.element.get('sheetId');
    this.reorder(() => entry.element.remove());
    const [first] = this.sheetElements;
    for (const view of this.root.walk())
      if (view.name === 'customWorkbookView' && view.get('activeSheetId') === id)
        view.set('activeSheetId', first?.get('sheetId'));
  }

  /** Adds an empty sheet. */
  add(name: string, at: number): void {
    const { file } = this;
    const id = addSheetPart(file, this.part);
    const highest = Math.max(0, ...this.sheetElements.map((one) => Number(one.get('sheetId') ?? 0)));
    const xml = `<sheet xmlns:r="${file.inForm(RELATIONSHIPS)}" name="${escapeXml(name)}" sheetId="${highest + 1}" r:id="${id}"/>`;
    const list = this.sheetList;
    this.reorder(() => this.putAt(list.add(xml), at));
  }

  /** Puts a worksheet at its place among the worksheets; chart sheets stay behind the sheet that they follow. */
  place(entry: SheetEntry, at: number): void {
    this.reorder(() => this.putAt(entry.element, at));
  }

  private putAt(element: XmlElement, at: number): void {
    const followers = this.followersOf(element);
    for (const one of [element, ...followers]) one.remove();
    const worksheets = this.entries.filter((one) => one.isWorksheet).map((one) => one.element);
    const { children } = this.sheetList;
    const next = worksheets[at];
    children.splice(next ? children.indexOf(next) : children.length, 0, element, ...followers);
  }

  private followersOf(element: XmlElement): XmlElement[] {
    const { entries } = this;
    const index = entries.findIndex((one) => one.element === element);
    const rest = entries.slice(index + 1);
    const end = rest.findIndex((one) => one.isWorksheet);
    // No chart sheet follows a sheet that was just added at the end.
    return index < 0 ? [] : rest.slice(0, end < 0 ? rest.length : end).map((one) => one.element);
  }

  /** Names of sheets' own and views count sheets by their places: these follow a change of the order. */
  private reorder(change: () => void): void {
    const before = this.sheetElements;
    change();
    const after = this.sheetElements;
    const placeOf = (old: string | undefined): number => after.indexOf(before[Number(old)]!);
    for (const name of this.nameElements) {
      const local = name.get('localSheetId');
      if (local === undefined) continue;
      const place = placeOf(local);
      if (place < 0) this.dropName(name);
      else name.set('localSheetId', String(place));
    }
    for (const view of this.root.listed('bookViews', 'workbookView'))
      for (const attribute of ['activeTab', 'firstSheet']) {
        const old = view.get(attribute);
        if (old !== undefined) view.set(attribute, String(Math.max(0, placeOf(old))));
      }
  }

  /** Removes a list of names that is empty, because programs call a file with such a list damaged. */
  private dropName(name: XmlElement): void {
    const list = name.parent!;
    drop(name);
    if (list.elements.length === 0) list.remove();
  }

  private get sheetList(): XmlElement {
    return this.root.named('sheets')[0]!;
  }

  private get sheetElements(): XmlElement[] {
    return this.sheetList.named('sheet');
  }

  private get nameElements(): XmlElement[] {
    return this.root.listed('definedNames', 'definedName');
  }
}

/** Of several ranges ("Parts!$A:$A,Parts!#REF!") those that are left. */
const withoutGone = (refersTo: string): string =>
  refersTo
    .split(/,(?=(?:[^']*'[^']*')*[^']*$)/)
    .filter((one) => !one.includes('#REF!'))
    .join(',');
