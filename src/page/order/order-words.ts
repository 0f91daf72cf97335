import type { TemplateResult } from 'lit-html';
import type { Progress } from '../../solver/program.ts';
import { isoDate } from '../../units/dates.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import type { OrderTerms } from '../workers/order-worker.ts';
import type { Running } from '../background.ts';
import type { AddedSites } from './added-sites.ts';
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

/** What was asked for, as an auditor reads it. */
export function scopeWords(
  { scope, failing, from }: OrderTerms,
  book: Workbook,
  { names, apart }: Pick<AddedSites, 'names' | 'apart'>,
): (readonly [string, string])[] {
  const chosen =
    scope.which === 'all'
      ? 'all belts'
      : scope.which === 'due'
        ? `joints due until ${isoDate(scope.until)}`
        : `selected belts: ${scope.records.map((record) => String(book.read('Belts', record, 'Belt'))).join(', ')}`;
  return [
    ['Scope', chosen],
    ['Failing joints', failing ? 'included' : 'left out'],
    ['Suppliers', from === 'split' ? 'cheapest mix' : 'single supplier'],
    ...(names.length === 0
      ? []
      : [
          ['Sites', names.join(', ')] as const,
          ['Delivery', apart ? 'to each site' : `to ${names[0] ?? 'the first site'}`] as const,
        ]),
  ];
}

/** What a search is doing, with a way to end it. */
export const searching = (what: string, running: Running | undefined, stop: () => void): TemplateResult =>
  searchLine(what, running?.progress === undefined ? undefined : progressText(running.progress), stop);
