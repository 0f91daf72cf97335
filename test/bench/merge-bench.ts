import { mergePlan } from '../../src/merge/merge-plan.ts';
import { mergedBook } from '../../src/merge/merged-book.ts';
import { withColumnAdded, withSheet } from '../../src/workbook/state-changes.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { fleet } from './fleet.ts';
import { median, milliseconds, timed, times } from './timing.ts';

/** A fleet with an own column of formulas, each over its own row. */
function lived(count: number): BookState {
  const owned = withColumnAdded(fleet(count), 'Belts', { header: 'Own', kind: 'number' });
  return withSheet(owned, 'Belts', (sheet) => ({
    ...sheet,
    rows: sheet.rows.map(({ cells }, record) => ({
      cells: cells.with(-1, `=D${record + 2}*2+SUM(H$2:H${record + 2})`),
    })),
  }));
}

/** Every tenth belt changed in one of its figures; one put in at the top, as far as `shift` says. */
function edited(state: BookState, column: number, shift: boolean): BookState {
  return withSheet(structuredClone(state), 'Belts', (sheet) => {
    const rows = sheet.rows.map(({ cells }, record) => ({
      cells: record % 10 === 0 ? cells.with(column, record) : cells,
    }));
    if (!shift) return { ...sheet, rows };
    const moved = rows.map(({ cells }, record) => ({
      cells: cells.with(-1, `=D${record + 3}*2+SUM(H$3:H${record + 3})`),
    }));
    return { ...sheet, rows: [{ cells: (rows[0]?.cells ?? []).with(0, 'New') }, ...moved] };
  });
}

/** Merging two fleets that both changed since a third, against copying their cells in a plain loop. */
export function mergeBench(count: number, write: (text: string) => void): void {
  const base = lived(count);
  const [mine, theirs] = [edited(base, 3, false), edited(base, 14, true)];
  const [planning, merging, copying]: [number[], number[], number[]] = [[], [], []];
  for (let round = 0; round < 3; round += 1) {
    const given = { base: { state: base }, mine: { state: mine }, theirs: { state: theirs } };
    let plan = mergePlan({ base: given.base, mine: given.base, theirs: given.base });
    planning.push(timed(() => (plan = mergePlan(given))));
    let records = 0;
    merging.push(timed(() => (records = sheetOf(mergedBook(plan).state, 'Belts').rows.length)));
    if (records !== count + 1) throw new Error('the merge lost rows');
    copying.push(timed(() => structuredClone([base, mine, theirs])));
  }
  const [plan, merge, copy] = [median(planning), median(merging), median(copying)];
  write(
    `Merging ${count} belts: ${milliseconds(plan)} to compare three books, ${milliseconds(merge)} to make one, ` +
      `${times((plan + merge) / copy)} a copy of them (${milliseconds(copy)})`,
  );
}
