import type { GanttOptions } from '../../outage/gantt.ts';

/** What the outage dialog shows, and how its tabs lead elsewhere. */
export interface OutageView {
  lanes: GanttOptions['lanes'];
  readonly redraw: () => void;
  /** Closes the dialog and goes to a cell, or to the first of a sheet. */
  readonly goTo: (sheet: string, record?: number, column?: string) => void;
  readonly showLeft: () => void;
}
