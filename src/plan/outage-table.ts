import type { QuantityKind } from '../units/quantities.ts';
import { hoursText, momentText, serialOfMoment } from './moments.ts';
import type { OutagePlan, OutageRequest, Stage } from './outage.ts';

/** A plan as rows of cells, for a page, a file or the command line, and what it comes to in sentences. */

export interface PlanColumn {
  readonly header: string;
  readonly kind: QuantityKind;
}

export type PlanCell = string | number | null;

export const planColumns: readonly PlanColumn[] = [
  { header: 'No.', kind: 'count' },
  { header: 'Job', kind: 'text' },
  { header: 'Belt', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Window', kind: 'text' },
  { header: 'Start', kind: 'date' },
  { header: 'End', kind: 'date' },
  { header: 'Hours', kind: 'hours' },
  { header: 'Crews', kind: 'text' },
  { header: 'Lost production', kind: 'number' },
  { header: 'After', kind: 'text' },
  { header: 'Due', kind: 'date' },
  { header: 'Remark', kind: 'text' },
];

/** Planned jobs by their start, numbered as the picture numbers them, then those that do not fit with the reason; dates as cells hold them. */
export function planRows({ jobs, areas = [] }: OutageRequest, { planned, unplanned }: OutagePlan): PlanCell[][] {
  const of = (key: string): { readonly after: string; readonly due: number | null } => {
    const job = jobs.find((one) => one.key === key);
    return { after: job?.after?.join(', ') ?? '', due: job?.due === undefined ? null : serialOfMoment(job.due) };
  };
  const standing = new Set(areas.flatMap(({ name, standsAtLoss }) => (standsAtLoss === undefined ? [] : [name])));
  return [
    ...planned.map(({ key, belt, area, window, start, end, hours, crews, lost }, index): PlanCell[] => {
      const whole = standing.has(area);
      const remark = whole ? `the area ${area} stands as a whole: its loss is counted once` : '';
      return [index + 1, key, belt, area, window, serialOfMoment(start), serialOfMoment(end), hours, crews.join(', '), whole ? null : lost, of(key).after, of(key).due, remark];
    }),
    ...unplanned.map(({ key, belt, area, reason }): PlanCell[] => [null, key, belt, area, '', null, null, null, '', null, of(key).after, of(key).due, `not planned: ${reason}`]),
  ];
}

const number = (value: number): string => String(Number(value.toFixed(2)));
const share = (value: number): string => `${number(100 * value)} %`;

function stageText({ name, value, bound, gap, proven }: Stage): string {
  if (proven) return `${name}: ${number(value)}, proven best`;
  if (!Number.isFinite(bound)) return `${name}: ${number(value)}, not proven best: the search ended before it had a bound`;
  return `${name}: ${number(value)}, not proven best: no plan does better than ${number(bound)}, a gap of ${share(gap)}`;
}

/** What a plan comes to, a sentence each. */
export function planSummary({ jobs, aim, step }: OutageRequest, { planned, unplanned, standing, lost, finish, stages, proven }: OutagePlan): string[] {
  const all = unplanned.length === 0 ? 'all' : String(planned.length);
  return [
    `${all} of ${jobs.length} jobs planned${finish === undefined ? '' : `, the last ends ${momentText(finish)}`}; aim: ${aim}; times in whole steps of ${step} minutes, on the plant's clock.`,
    `Lost production ${number(lost)}${standing.map(({ area, hours, lost: own }) => `; of it ${number(own)} by the area ${area}, which stands ${hoursText(hours)}`).join('')}.`,
    ...stages.map((stage) => `${stageText(stage)}.`),
    ...(proven ? [] : ['The search ended before all was proven: more time may give a better plan, and another machine another one.']),
  ];
}
