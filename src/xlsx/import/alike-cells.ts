import type { NotUnderstood, ReadingRemark } from './import-model.ts';

/** Cells of which the same is to be said: of 45 equal cells one line says it. */
interface AlikeCells<Item> {
  readonly first: Item;
  /** The cells, the first of them included. */
  readonly cells: readonly string[];
}

const meaning = (item: NotUnderstood | ReadingRemark): string =>
  [item.sheet, item.column, item.given.trim().toLowerCase(), 'why' in item ? item.why : item.what].join('\n');

export function alikeCells<Item extends NotUnderstood | ReadingRemark>(items: readonly Item[]): AlikeCells<Item>[] {
  const groups = new Map<string, { readonly first: Item; readonly cells: string[] }>();
  for (const item of items) {
    const group = groups.get(meaning(item));
    if (group === undefined) groups.set(meaning(item), { first: item, cells: [item.cell] });
    else group.cells.push(item.cell);
  }
  return [...groups.values()];
}

const mostNamed = 4;

/** "D4", "D4, D5 and 43 more". */
export function cellsInWords(cells: readonly string[]): string {
  const named = cells.length <= mostNamed ? cells : cells.slice(0, 2);
  const rest = cells.length - named.length;
  return rest === 0 ? named.join(', ') : `${named.join(', ')} and ${rest} more`;
}
