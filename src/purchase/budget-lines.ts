import { areas as areasSheet } from '../../sheets/work/areas.ts';
import { sites as sitesSheet } from '../../sheets/buying/sites.ts';
import { shelfArea } from '../order/search/budget.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { OrderSchedule, ScheduleRow } from './schedule-rows.ts';

/** Who pays what of an order, and when: each line shared among areas, and with them among cost centres and sites. */

/** Who pays: an area of a site, and the cost centre that it counts to. */
export interface Payer {
  readonly site: string;
  /** The area's own, otherwise that of its site; '' where neither names one. */
  readonly centre: string;
  readonly area: string;
}

interface BudgetLine {
  /** Place of its line in the schedule. */
  readonly row: number;
  /** Place of who pays. */
  readonly payer: number;
  /** What joints take of it, and not the shelf. */
  readonly ofJoints: boolean;
  /** Of the line. */
  readonly share: number;
  readonly goods: number;
  readonly charges: number;
  /** Goods and charges, raised by the yearly escalation up to the day of the order. */
  readonly budgeted: number;
}

export interface OrderBudget {
  /** By site, cost centre and area. */
  readonly payers: readonly Payer[];
  readonly lines: readonly BudgetLine[];
}

/** The cost centre of an area of a site. */
function centres(book: Workbook): (site: string, area: string) => string {
  const ofArea = new Map(
    sheetRows(book, areasSheet.name, []).map((row) => [row.text('Area'), row.text('Cost centre')]),
  );
  const ofSite = new Map(
    sheetRows(book, sitesSheet.name, []).map((row) => [row.text('Site'), row.text('Cost centre')]),
  );
  const first = [...ofSite.values()][0] ?? '';
  return (site, area) =>
    [ofArea.get(area), ofSite.get(site), first].find((text) => text !== undefined && text !== '') ?? '';
}

const compared = (one: string, other: string): number => one.localeCompare(other, 'en');

type Part = Pick<Payer, 'site' | 'area'> & Pick<BudgetLine, 'ofJoints' | 'share'>;

/** What of a line of the schedule each area takes, and the shelf. */
function partsOf({ figures }: OrderSchedule, { record }: ScheduleRow): Part[] {
  const place = figures.purchases[record]?.line ?? -1;
  const line = figures.order.lines[place];
  if (line === undefined) return [];
  const { need, toOrder, forShelf, item } = line;
  const ofJoints = toOrder > 0 ? 1 - forShelf / toOrder : 1;
  const taken = new Map<string, Part & { share: number }>();
  for (const { line: of, site, area, quantity } of figures.needs) {
    if (of !== place) continue;
    const key = JSON.stringify([site, area]);
    const part = taken.get(key) ?? { site, area, ofJoints: true, share: 0 };
    part.share += (ofJoints * quantity) / need;
    taken.set(key, part);
  }
  const shelf = { site: figures.shelfSite(item), area: shelfArea, ofJoints: false, share: 1 - ofJoints };
  return [...taken.values(), shelf].filter(({ share }) => share > 0);
}

/** The budget of an order: its lines add up to those of the schedule. */
export function orderBudget(book: Workbook, schedule: OrderSchedule): OrderBudget {
  const centreOf = centres(book);
  const parts = schedule.rows.flatMap((one, row) => partsOf(schedule, one).map((part) => ({ ...part, row, one })));
  const keyOf = ({ site, area }: Pick<Payer, 'site' | 'area'>): string => JSON.stringify([site, area]);
  const payers = [...new Map(parts.map((part) => [keyOf(part), part])).values()]
    .map(({ site, area }): Payer => ({ site, area, centre: centreOf(site, area) }))
    .toSorted(
      (one, other) =>
        compared(one.site, other.site) || compared(one.centre, other.centre) || compared(one.area, other.area),
    );
  const places = new Map(payers.map((payer, place) => [keyOf(payer), place]));
  return {
    payers,
    lines: parts.map(({ row, one, share, ofJoints, ...part }): BudgetLine => {
      const goods = schedule.figures.purchases[one.record]?.purchase.cost ?? 0;
      return {
        row,
        payer: places.get(keyOf(part)) ?? -1,
        ofJoints,
        share,
        goods: share * goods,
        charges: share * (one.cost - goods),
        budgeted: share * one.budgeted,
      };
    }),
  };
}
