import { shortText } from '../units/shown-mark.ts';
import { capital, counted } from '../units/phrases.ts';
import type { QuantityKind } from '../units/quantities.ts';
import { hoursText, momentText, serialOfMoment } from './moments.ts';
import type { OutagePlan, OutageRequest, Stage } from './search/request.ts';

/** A plan as rows of cells, for a page, a file or the command line, and its figures in sentences. */

interface PlanColumn {
  readonly header: string;
  readonly kind: QuantityKind;
  /** With the time of day. */
  readonly timed?: true;
}

export type PlanCell = string | number | null;

/** The unit of loss is part of its column's header. */
export const planColumns = ({ lossUnit = '' }: Pick<OutageRequest, 'lossUnit'>): readonly PlanColumn[] => [
  { header: 'No.', kind: 'count' },
  { header: 'Job', kind: 'text' },
  { header: 'Belt', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Window', kind: 'text' },
  { header: 'Start', kind: 'date', timed: true },
  { header: 'End', kind: 'date', timed: true },
  { header: 'Hours', kind: 'hours' },
  { header: 'Crews', kind: 'text' },
  { header: lossUnit === '' ? 'Lost production' : `Lost production, ${lossUnit}`, kind: 'number' },
  { header: 'After', kind: 'text' },
  { header: 'Due', kind: 'date' },
  { header: 'Remark', kind: 'text' },
];

/**
 * Planned jobs by their start, numbered as the picture numbers them, then those that do not fit with the reason; dates
 * as cells hold them, due days those that are given in place of the limits.
 */
export function planRows(
  { jobs, areas = [] }: OutageRequest,
  { planned, unplanned }: OutagePlan,
  dueDays?: ReadonlyMap<string, number>,
): PlanCell[][] {
  const of = (key: string): { readonly after: string; readonly due: number | null } => {
    const job = jobs.find((one) => one.key === key);
    return {
      after: job?.after?.join(', ') ?? '',
      due: dueDays?.get(key) ?? (job?.due === undefined ? null : serialOfMoment(job.due)),
    };
  };
  const standing = new Set(areas.flatMap(({ name, standsAtLoss }) => (standsAtLoss === undefined ? [] : [name])));
  return [
    ...planned.map(({ key, belt, area, window, start, end, hours, crews, lost }, index): PlanCell[] => {
      const whole = standing.has(area);
      const remark = whole ? `the whole area ${area} is stopped: its loss counts once` : '';
      return [
        index + 1,
        key,
        belt,
        area,
        window,
        serialOfMoment(start),
        serialOfMoment(end),
        hours,
        crews.join(', '),
        whole ? null : lost,
        of(key).after,
        of(key).due,
        remark,
      ];
    }),
    ...unplanned.map(({ key, belt, area, reason }): PlanCell[] => [
      null,
      key,
      belt,
      area,
      '',
      null,
      null,
      null,
      '',
      null,
      of(key).after,
      of(key).due,
      `not planned: ${reason}`,
    ]),
  ];
}

const number = (value: number): string => shortText(value, 2);
const share = (value: number): string => `${number(100 * value)} %`;

/** The result of a stage, and how far it is proven. */
function stageText(
  { name, value, bound, gap, proven }: Stage,
  { jobs, aim }: Pick<OutageRequest, 'jobs' | 'aim'>,
  before: readonly Stage[],
  lossUnit: string,
): string {
  // A sum of moments is of no use to a reader.
  if (name === 'sum of ends') {
    if (proven) return 'beyond that, the jobs end as early as possible: proven';
    if (!before.every((stage) => stage.proven)) return 'beyond that, jobs may end earlier in another plan';
    return aim === 'earliest finish'
      ? 'no plan finishes earlier. Among those, a plan whose jobs end earlier may exist'
      : 'no plan loses less. Among those, a plan that ends earlier may exist';
  }
  const weighted = name === 'jobs planned' && jobs.some(({ weight = 1 }) => weight !== 1) ? ' by weight' : '';
  const what = `${name}${weighted}: ${number(value)}${name === 'lost production' ? lossUnit : ''}`;
  if (proven) return `${what}, proven best`;
  if (!Number.isFinite(bound)) return `${what}, not proven best: the search ended before it had a bound`;
  return `${what}, not proven best: bound ${number(bound)}, gap ${share(gap)}`;
}

/** The figures of a plan, a sentence each. */
export function planSummary(
  request: OutageRequest,
  { planned, unplanned, standing, lost, finish, stages, proven }: OutagePlan,
): string[] {
  const { jobs, aim, step, lossUnit } = request;
  const unit = lossUnit === undefined || lossUnit === '' ? '' : ` ${lossUnit}`;
  // One figure, one sentence: where the stage only says that it is proven, the sentence of the figure does.
  const lostProven = stages.some(
    ({ name, value, proven: sure }) => sure && name === 'lost production' && number(value) === number(lost),
  );
  const many =
    unplanned.length === 0 && jobs.length > 1
      ? `All ${jobs.length} jobs`
      : `${planned.length} of ${counted(jobs.length, 'job')}`;
  return [
    `${many} planned${finish === undefined ? '' : `, the last ends ${momentText(finish)}`}; aim: ${aim}; time grid ` +
      `${step} minutes, on the plant's clock.`,
    `Lost production ` +
      `${number(lost)}${unit}${lostProven ? ', proven best' : ''}` +
      `${standing
        .map(
          ({ area, hours, lost: own }) =>
            `; ${number(own)}${unit} of it from the area ${area}, shut down for ${hoursText(hours)}`,
        )
        .join('')}.`,
    ...stages
      .filter(
        ({ name, proven: sure }) =>
          !(sure && name === 'jobs planned' && unplanned.length === 0) && !(lostProven && name === 'lost production'),
      )
      .map((stage) => capital(`${stageText(stage, request, stages.slice(0, stages.indexOf(stage)), unit)}.`)),
    ...(proven ||
    (stages.at(-1)?.name === 'sum of ends' && stages.every(({ name, proven: sure }) => sure || name === 'sum of ends'))
      ? []
      : [
          'Not all of the plan is proven best: more time, longer steps or fewer jobs may give a better plan. ' +
            'Another machine may give another plan.',
        ]),
  ];
}
