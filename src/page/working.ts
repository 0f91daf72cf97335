import type { Value } from '../formula/values.ts';
import { keyValue } from '../records/input-issues.ts';
import { type Explanation, explained } from '../workbook/explanation.ts';
import { type CellPlace, placeKey } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Desk } from './desk.ts';
import { isWeak, type Mark, sourceMarks } from '../sheet/source-marks.ts';
import { valueMarks } from './source-marks.ts';

/** The tree of the cell whose working is shown: which cell that is, and what of the tree is open. */

interface Held {
  readonly place: CellPlace;
  /** The record's name, by which it is found again when rows move. */
  readonly name: Value;
  /** Values when the hold began, by cell. */
  readonly before: ReadonlyMap<string, Value>;
}

/** A part of the tree. Its path stays when the values change and when another record is selected. */
export interface Branch {
  readonly path: string;
  readonly level: number;
  readonly item: Explanation;
  readonly expandable: boolean;
  readonly open: boolean;
}

const state: { held: Held | undefined; readonly turned: Set<string>; active: string; version: number } = {
  held: undefined,
  turned: new Set(),
  active: '',
  version: 0,
};

/** Rises with everything here that changes what is shown. */
export const workingVersion = (): number => state.version;

function changed(desk: Desk): void {
  state.version += 1;
  desk.changed();
}

const exists = (book: Workbook, { sheet, record, column }: CellPlace): boolean =>
  book.state.sheets.some(({ name, rows }) => name === sheet && record < rows.length) &&
  column < book.columns(sheet).length;

function heldPlace(book: Workbook): CellPlace | undefined {
  const { held } = state;
  if (held === undefined || !book.state.sheets.some(({ name }) => name === held.place.sheet)) return undefined;
  const { place, name } = held;
  if (exists(book, place) && keyValue(book, place) === name) return place;
  const record = book.sheet(place.sheet).rows.findIndex((_, at) => keyValue(book, { ...place, record: at }) === name);
  return record < 0 ? undefined : { ...place, record };
}

/** The cell whose working is shown, and whether it is held; undefined where there is no cell. */
export function workingPlace({
  book,
  selection,
}: Desk): { readonly place: CellPlace; readonly held: boolean } | undefined {
  const held = heldPlace(book);
  if (held !== undefined) return { place: held, held: true };
  state.held = undefined;
  return exists(book, selection.place) ? { place: selection.place, held: false } : undefined;
}

const all = (item: Explanation): Explanation[] => [item, ...item.parts.flatMap(all)];

/** Keeps showing a cell while others are selected, and notes the values of now. */
export function hold(desk: Desk, place: CellPlace): void {
  const { book } = desk;
  const before = new Map(all(explained(book, place)).map((item) => [placeKey(item.place), item.value]));
  state.held = { place, name: keyValue(book, place), before };
  changed(desk);
}

export function release(desk: Desk): void {
  state.held = undefined;
  changed(desk);
}

/** The value that a cell had when the hold began, if it is another now. */
export function formerValue({ place, value }: Explanation): Value | undefined {
  const before = state.held?.before.get(placeKey(place));
  return before === undefined || before === value || String(before) === String(value) ? undefined : before;
}

/** Goes to a cell of the tree, which stays on show. */
export function follow(desk: Desk, root: CellPlace, place: CellPlace): void {
  if (state.held === undefined) hold(desk, root);
  desk.goTo(place);
  desk.grid?.focus();
}

/** The root is open at first, all else shut. */
const isOpen = (path: string, level: number): boolean => state.turned.has(path) === level > 0;

export function turn(desk: Desk, { path }: Branch): void {
  if (!state.turned.delete(path)) state.turned.add(path);
  changed(desk);
}

export function openAll(desk: Desk, branches: readonly Branch[]): void {
  for (const { path, open, expandable } of branches)
    if (expandable && !open && !state.turned.delete(path)) state.turned.add(path);
  changed(desk);
}

/** The part of the tree that the keys stand on. */
export function activate(desk: Desk, path: string): void {
  if (state.active === path) return;
  state.active = path;
  changed(desk);
}

export const activePath = (): string => state.active;

/** The root of a cell's tree. */
export function rootOf(book: Workbook, place: CellPlace): Branch {
  const item = explained(book, place);
  const path = `${place.sheet}.${item.header}`;
  return { path, level: 0, item, expandable: item.parts.length > 0, open: isOpen(path, 0) };
}

/** What a part is made of; one that is explained earlier in the tree can be opened here as well. */
export function partsOf(book: Workbook, { path, level, item }: Branch, above: ReadonlySet<string>): Branch[] {
  const { parts } = item.repeated ? explained(book, item.place) : item;
  const alike = new Map<string, number>();
  return parts.map((part) => {
    const name = `${part.place.sheet}.${part.header}`;
    const count = alike.get(name) ?? 0;
    alike.set(name, count + 1);
    const own = `${path}>${name}${count === 0 ? '' : `#${count}`}`;
    // A circle of users' formulas would be opened without end.
    const expandable =
      !above.has(placeKey(part.place)) &&
      (part.parts.length > 0 || (part.repeated && (part.origin === 'computed' || part.origin === 'your formula')));
    return { path: own, level: level + 1, item: part, expandable, open: expandable && isOpen(own, level + 1) };
  });
}

/** What a value rests on at last: how many figures of each mark, and the names of those that are not sure. */
interface Grounds {
  readonly counts: readonly (readonly [mark: Mark, count: number])[];
  readonly unsure: readonly { readonly name: string; readonly mark: Mark; readonly place: CellPlace | undefined }[];
}

export function grounds(book: Workbook, root: Explanation): Grounds {
  const items = all(root).filter(({ repeated }) => !repeated);
  const leaves = items.filter(({ origin }) => origin !== 'computed' && origin !== 'your formula');
  const counts = new Map<Mark, number>();
  const unsure: { name: string; mark: Mark; place: CellPlace | undefined }[] = [];
  for (const item of leaves) {
    const marks = valueMarks(book, item);
    const [first] = marks;
    if (first !== undefined) counts.set(first, (counts.get(first) ?? 0) + 1);
    const mark = marks.find(isWeak);
    if (mark !== undefined && mark !== 'invented') unsure.push({ name: item.header, mark, place: item.place });
  }
  for (const source of new Set(items.flatMap(({ origin, sources }) => (origin === 'computed' ? sources : [])))) {
    const [, name] = /^([A-Z][A-Z0-9]+): /.exec(source) ?? [];
    const mark = sourceMarks(source).find(isWeak);
    if (name !== undefined && mark !== undefined) unsure.push({ name, mark, place: undefined });
  }
  return {
    counts: [...counts].toSorted(([one], [other]) => Number(other === 'entered') - Number(one === 'entered')),
    unsure,
  };
}
