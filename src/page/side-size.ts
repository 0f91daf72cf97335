import type { Desk } from './desk.ts';

/** How wide the panels beside the grid are and how high the findings: as the user drew them, or as the view needs. */

interface Range {
  readonly least: number;
  readonly most: number;
}

const within = ({ least, most }: Range, wanted: number): number => Math.min(most, Math.max(least, wanted));

/** Of the window, the grid keeps at least so much. */
const gridKeeps = 360;
/** Bars above and below the grid, until they are drawn: then what they leave is measured. */
const bars = 134;
const viewKeeps = 180;
/** Below the findings' head, their counts and choices, the first of them can be read. */
const findingsShow = 176;

const room = (): number => document.querySelector('.work')?.clientHeight ?? window.innerHeight - bars;

export function widths(): Range {
  const least = 300;
  return { least, most: Math.max(least, window.innerWidth - gridKeeps) };
}

export function findingsHeights(): Range {
  const least = 110;
  return { least, most: Math.max(least, room() - viewKeeps) };
}

const small = (): boolean => window.innerWidth <= 1200;

/** Tables and trees want more room than the drawing of the joint. */
function ownWidth({ view }: Desk): number {
  if (view === undefined || view === 'joint') return small() ? 320 : 372;
  return small() ? 480 : 560;
}

export const sideWidth = (desk: Desk): number => within(widths(), desk.sideWidth ?? ownWidth(desk));

/**
 * The drawing of the joint has its height, and the findings the rest; beside a table or a tree they are content with
 * less.
 */
function ownFindingsHeight({ view }: Desk): number {
  const rest =
    view === 'joint' ? room() - Math.min(window.innerHeight <= 820 ? 376 : 462, room() * 0.62) : room() * 0.24;
  return Math.max(findingsShow, rest);
}

export const findingsHeight = (desk: Desk): number =>
  Math.round(within(findingsHeights(), desk.findingsHeight ?? ownFindingsHeight(desk)));
