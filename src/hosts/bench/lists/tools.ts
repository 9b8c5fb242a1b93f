/** Which of the panels beside the sheet is open: finding and replacing, sorting, filtering. */
import type { UniverWorkbook } from '../../univer';
import { Store } from '../store';

export type Tool =
  { readonly kind: 'find'; readonly replacing: boolean } | { readonly kind: 'sort' } | { readonly kind: 'filter' };

/** What each panel is given. */
export interface PanelProps {
  readonly workbook: UniverWorkbook;
}

interface ToolsState {
  readonly tool?: Tool | undefined;
  /** Counts how often one was asked for, so that asking again brings the keyboard back to it. */
  readonly asked: number;
}

export class Tools extends Store<ToolsState> {
  /** @param opening is called before one is opened */
  constructor(private readonly opening: () => void) {
    super({ asked: 0 });
  }

  open(tool: Tool): void {
    this.opening();
    this.set({ tool, asked: this.state.asked + 1 });
  }

  close(): void {
    this.set({ tool: undefined });
  }
}
