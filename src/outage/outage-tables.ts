import { serialOfMoment } from './moments.ts';
import type { OutagePlan, PlannedJob } from './search/request.ts';
import { planColumns, planRows } from './plan-table.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { FormulaCell, Table, TableCell, TableColumn } from '../sheet/table.ts';
import { crews as crewSheet } from '../../sheets/work/crews.ts';
import type { FleetOutage } from './fleet-outage.ts';

/**
 * A plan as tables with live formulas: ends follow from starts and hours, each crew's hours and the loss add up.
 */

/** For tests: the file is asked for all of them. */
export const outageTableNames = {
  plan: 'Outage plan',
  bookings: 'Crew by crew',
  crews: 'Labour hours',
  standing: 'Areas shut down',
  unplanned: 'Not planned',
  remarks: 'Check',
} as const;

const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const hours = { kind: 'hours', digits: 2 } as const;

/** Digits of a loss as people read it. */
const lossDigits = 1;

export const outageTables = (fleet: FleetOutage, plan: OutagePlan): Table[] => [
  planTable(fleet, plan),
  ...crewTables(fleet, plan),
  ...standingTables(fleet, plan),
  ...leftTables(fleet, plan),
];

function planTable({ request, belts }: FleetOutage, plan: OutagePlan): Table {
  const name = outageTableNames.plan;
  const due = new Map(
    belts.flatMap(({ job, due: day }) => (day === undefined ? [] : [[job.key, Math.floor(day)] as const])),
  );
  const lossHeader = planColumns(request).find(({ header }) => header.startsWith('Lost'))?.header ?? '';
  // A belt has one job, called as it is.
  const kept = planColumns(request).flatMap(({ header }, place) => (header === 'Job' ? [] : [place]));
  const ofKept = <Cell>(cells: readonly Cell[]): Cell[] => cells.filter((_, place) => kept.includes(place));
  const columns = ofKept(planColumns(request)).map((column): TableColumn => ({
    ...column,
    ...(column.header === 'Hours'
      ? {
          digits: 2,
          note: 'Planned downtime in whole steps: the work is done within it with the chance PlanningShare.',
        }
      : {}),
    ...(column.header === lossHeader ? { digits: lossDigits } : {}),
    ...(column.header === 'End' ? { computed: true as const } : {}),
  }));
  const at = (header: string): number => columns.findIndex((column) => column.header === header);
  const cells = new TableCells(name, columns, plan.planned.length);
  const rows = planRows(request, { ...plan, unplanned: [] }, due).map((row, record): TableCell[] =>
    ofKept(row).map((cell, place) =>
      place === at('End') && typeof cell === 'number'
        ? formula(`${cells.cell('Start', record)}+${cells.cell('Hours', record)}/24`, cell)
        : cell,
    ),
  );
  if (rows.length === 0) return { name, columns, keys: 1, rows: [] };
  const total = columns.map(({ header }): TableCell => {
    if (header === 'Hours') return formula(`SUM(${cells.above(header)})`, sum(plan.planned.map((job) => job.hours)));
    if (header !== lossHeader) return header === 'Belt' ? 'Total' : null;
    const standing =
      plan.standing.length === 0
        ? ''
        : `+SUM(${new TableCells(
            outageTableNames.standing,
            standingColumns(request.lossUnit),
            plan.standing.length,
          ).column(standingLoss(request.lossUnit))})`;
    return formula(`SUM(${cells.above(header)})${standing}`, plan.lost);
  });
  return { name, columns, keys: 1, rows: [...rows, total], total: true };
}

const bookingColumns: readonly TableColumn[] = [
  { header: 'Crew', kind: 'text' },
  { header: 'Start', kind: 'date', timed: true },
  { header: 'End', kind: 'date', timed: true, computed: true },
  { header: 'Hours', ...hours },
  { header: 'Belt', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Window', kind: 'text' },
  { header: 'With', kind: 'text' },
];

const crewColumns: readonly TableColumn[] = [
  { header: 'Crew', kind: 'text' },
  { header: 'People', kind: 'count' },
  { header: crewSheet.columns.find(({ header }) => header === 'Works in')?.header ?? 'Works in', kind: 'text' },
  { header: 'Jobs', kind: 'count', computed: true },
  { header: 'Hours', ...hours, computed: true },
  { header: 'Labour hours', ...hours, computed: true },
];

function crewTables({ request }: FleetOutage, { planned }: OutagePlan): Table[] {
  const booked = request.crews.flatMap(({ name }) =>
    planned.filter(({ crews }) => crews.includes(name)).map((job) => ({ name, job })),
  );
  if (booked.length === 0) return [];
  const bookings = new TableCells(outageTableNames.bookings, bookingColumns, booked.length);
  const summed = new TableCells(outageTableNames.crews, crewColumns, request.crews.length);
  const others = ({ crews }: PlannedJob, name: string): string => crews.filter((one) => one !== name).join(', ');
  return [
    {
      name: outageTableNames.bookings,
      columns: bookingColumns,
      keys: 1,
      rows: booked.map(({ name, job }, record) => [
        name,
        serialOfMoment(job.start),
        formula(`${bookings.cell('Start', record)}+${bookings.cell('Hours', record)}/24`, serialOfMoment(job.end)),
        job.hours,
        job.belt,
        job.area,
        job.window,
        others(job, name),
      ]),
    },
    {
      name: outageTableNames.crews,
      columns: crewColumns,
      keys: 1,
      rows: request.crews.map(({ name, people, area }, record) => {
        const own = booked.filter((one) => one.name === name).map(({ job }) => job.hours);
        const [crew, heads, worked] = [
          summed.cell('Crew', record),
          summed.cell('People', record),
          summed.cell('Hours', record),
        ];
        return [
          name,
          people,
          area ?? 'all areas',
          formula(`COUNTIFS(${bookings.column('Crew')},${crew})`, own.length),
          formula(`SUMIFS(${bookings.column('Hours')},${bookings.column('Crew')},${crew})`, sum(own)),
          formula(`${heads}*${worked}`, people * sum(own)),
        ];
      }),
    },
  ];
}

const standingLoss = (unit = ''): string => (unit === '' ? 'Lost production' : `Lost production, ${unit}`);
const standingColumns = (unit: string | undefined): readonly TableColumn[] => [
  {
    header: 'Area',
    kind: 'text',
    note: 'The whole area is stopped while one of its belts is worked on: the loss counts once.',
  },
  { header: 'Hours', ...hours },
  { header: standingLoss(unit), kind: 'number', digits: lossDigits },
];

function standingTables({ request: { lossUnit } }: FleetOutage, { standing }: OutagePlan): Table[] {
  if (standing.length === 0) return [];
  return [
    {
      name: outageTableNames.standing,
      columns: standingColumns(lossUnit),
      keys: 1,
      rows: standing.map(({ area, hours: worked, lost }) => [area, worked, lost]),
    },
  ];
}

function leftTables({ leftOut, remarks, notes }: FleetOutage, { unplanned }: OutagePlan): Table[] {
  const why: readonly (readonly string[])[] = [
    ...unplanned.map(({ belt, area, reason }) => [belt, area, `does not fit: ${reason}`]),
    ...leftOut.map(({ belt, reason, cell }) => [belt, '', `left out: ${reason} (${cell})`]),
  ];
  const remarked = [...notes.map((note) => ['', note]), ...remarks.map(({ cell, message }) => [cell, message])];
  return [
    ...(why.length === 0
      ? []
      : [
          {
            name: outageTableNames.unplanned,
            columns: [
              { header: 'Belt', kind: 'text' },
              { header: 'Area', kind: 'text' },
              { header: 'Reason', kind: 'text' },
            ] as const,
            keys: 1,
            rows: why,
          },
        ]),
    ...(remarked.length === 0
      ? []
      : [
          {
            name: outageTableNames.remarks,
            columns: [
              { header: 'Cell', kind: 'text' },
              { header: 'Note', kind: 'text' },
            ] as const,
            keys: 1,
            rows: remarked,
          },
        ]),
  ];
}
