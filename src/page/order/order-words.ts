import type { TemplateResult } from 'lit-html';
import type { Progress } from '../../solver/program.ts';
import type { Running } from '../background.ts';
import { wholeMoney } from '../planning/figures.ts';
import { searching as searchLine } from '../planning/planning-dialog.ts';

/** Progress as the order dialog writes it. */

const progressText = ({ stage, best, bound, seconds }: Progress): string =>
  [
    stage,
    ...(best === undefined ? [] : [`best ${wholeMoney(best)}`]),
    ...(bound === undefined || bound <= 0 ? [] : [`at least ${wholeMoney(bound)}`]),
    `${seconds.toFixed(0)} s`,
  ].join(' · ');

/** What a search is doing, with a way to end it. */
export const searching = (what: string, running: Running | undefined, stop: () => void): TemplateResult =>
  searchLine(what, running?.progress === undefined ? undefined : progressText(running.progress), stop);
