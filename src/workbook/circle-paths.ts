import { cellName, recordInRow } from '../formula/address.ts';
import { type CellArea, usedBy } from '../formula/references.ts';
import { isComputed } from '../sheet/declaration.ts';
import { lookedInto, namesUsed, precedents } from '../sheet/declared-formula.ts';
import { bookColumn, compiledSheets } from './declared.ts';
import { columnDependents, kinSheets, nameDependents } from './dependence.ts';
import type { BookNames } from './names.ts';
import { type CellPlace, placeKey } from './place.ts';
import { type BookState, contentAt } from './state.ts';

/** By which cells a formula comes round to its own result: the shortest way, for people to see where to break it. */

/** Cells followed before a way is given up: nobody reads one that long. */
const mostSeen = 5000;
/** Cells that those are made of, before it is given up: long ranges would come again with every cell. */
const mostParts = 100_000;
/** Cells of a way that are named. */
const mostNamed = 6;

type Kin = (sheet: string, place: CellPlace) => readonly number[];

const sameSheet = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** The first of cells, by record, that stands at a record or behind it. */
function firstFrom(cells: readonly CellPlace[], record: number): number {
  let [from, to] = [0, cells.length];
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if ((cells[middle]?.record ?? 0) < record) from = middle + 1;
    else to = middle;
  }
  return from;
}

export class CirclePaths {
  readonly #state: BookState;
  readonly #names: BookNames;
  readonly #kin: Kin;
  /** Formulas by sheet, in lower case, and column: their records from the first. */
  readonly #formulas = new Map<string, Map<number, CellPlace[]>>();
  readonly #typed: ReadonlySet<string>;
  /** Computed columns, as sheet.column, that follow from some formula: no circle passes through others. */
  readonly #live = new Set<string>();

  /** `formulas`: all cells that hold a formula of the user's; `kin`: the records of a sheet that belong to a cell's. */
  constructor(state: BookState, names: BookNames, formulas: readonly CellPlace[], kin: Kin) {
    this.#state = state;
    this.#names = names;
    this.#kin = kin;
    for (const place of formulas.toSorted((one, other) => one.record - other.record)) {
      const sheet = place.sheet.toLowerCase();
      const columns = this.#formulas.get(sheet) ?? new Map<number, CellPlace[]>();
      this.#formulas.set(sheet, columns);
      const cells = columns.get(place.column);
      if (cells === undefined) columns.set(place.column, [place]);
      else cells.push(place);
    }
    this.#typed = new Set(formulas.map(placeKey));
    const marks = new Set(formulas.map((place) => `${place.sheet}.${place.column}=${names.at(place) ?? ''}`));
    for (const mark of marks) {
      const [column = '', name = ''] = mark.split('=');
      const dot = column.lastIndexOf('.');
      for (const next of name === ''
        ? columnDependents(column.slice(0, dot), Number(column.slice(dot + 1)))
        : nameDependents(name))
        this.#live.add(`${next.sheet}.${next.column}`);
    }
  }

  /** The cells of an area that may lie on a circle: formulas, and computed cells that follow from one. */
  #inArea(sheet: string, area: CellArea): CellPlace[] {
    const { top, bottom, left, right } = area;
    const [first, last] = [recordInRow(top + 1), recordInRow(bottom + 1)];
    const typed = [...(this.#formulas.get(sheet.toLowerCase()) ?? [])].flatMap(([column, cells]) =>
      column < left || column > right ? [] : cells.slice(firstFrom(cells, first), firstFrom(cells, last + 1)),
    );
    const plan = [...compiledSheets.values()].find(({ declaration }) => sameSheet(declaration.name, sheet));
    if (plan === undefined) return typed;
    const { name } = plan.declaration;
    const rows = this.#state.sheets.find((one) => one.name === name)?.rows.length ?? 0;
    const computed: CellPlace[] = [];
    for (let column = left; column <= Math.min(right, plan.columns.length - 1); column += 1) {
      if (!this.#live.has(`${name}.${column}`)) continue;
      for (let record = Math.max(0, first); record <= Math.min(last, rows - 1); record += 1) {
        const place = { sheet: name, record, column };
        if (contentAt(this.#state, place) === null) computed.push(place);
      }
    }
    return [...typed, ...computed];
  }

  #ofColumn(sheet: string, header: string, records: readonly number[]): CellPlace[] {
    const column = compiledSheets.get(sheet)?.position.get(header);
    if (column === undefined) return [];
    return records.flatMap((record) => {
      const place = { sheet, record, column };
      const lives = this.#live.has(`${sheet}.${column}`) && contentAt(this.#state, place) === null;
      return lives || this.#typed.has(placeKey(place)) ? [place] : [];
    });
  }

  #named(names: readonly string[]): CellPlace[] {
    return this.#names.places.filter(
      (place) =>
        names.some((name) => name.toLowerCase() === place.name.toLowerCase()) && this.#typed.has(placeKey(place)),
    );
  }

  /** The cells that a cell is made of, as far as they may lie on a circle. */
  #parts(place: CellPlace): CellPlace[] {
    if (this.#typed.has(placeKey(place))) {
      const used = usedBy(String(contentAt(this.#state, place) ?? '')) ?? { areas: [], names: [] };
      return [
        ...used.areas.flatMap((area) => this.#inArea(area.sheet ?? place.sheet, area)),
        ...this.#named(used.names),
      ];
    }
    const column = compiledSheets.get(place.sheet)?.columns[place.column];
    if (column === undefined || !isComputed(column)) return [];
    const kin = kinSheets(place.sheet);
    return [
      ...precedents(column).flatMap((header) => this.#ofColumn(place.sheet, header, [place.record])),
      ...lookedInto(column).flatMap(({ sheet, header }) =>
        this.#ofColumn(
          sheet,
          header,
          kin.includes(sheet)
            ? this.#kin(sheet, place)
            : [...(this.#state.sheets.find(({ name }) => name === sheet)?.rows.keys() ?? [])],
        ),
      ),
      ...this.#named(namesUsed(column)),
    ];
  }

  /** The shortest way from a cell back to itself, the cell last; undefined where none was found. */
  of(start: CellPlace): readonly CellPlace[] | undefined {
    const end = placeKey(start);
    const from = new Map<string, CellPlace>();
    const ahead: CellPlace[] = [start];
    let looked = 0;
    for (let next = 0; next < ahead.length && next < mostSeen && looked < mostParts; next += 1) {
      const here = ahead[next];
      if (here === undefined) break;
      for (const part of this.#parts(here)) {
        looked += 1;
        const key = placeKey(part);
        if (from.has(key)) continue;
        from.set(key, here);
        if (key === end) return this.#way(start, from);
        ahead.push(part);
      }
    }
    return undefined;
  }

  #way(start: CellPlace, from: ReadonlyMap<string, CellPlace>): CellPlace[] {
    const way = [start];
    for (let here = from.get(placeKey(start)); here !== undefined; here = from.get(placeKey(here))) {
      if (placeKey(here) === placeKey(start)) break;
      way.push(here);
    }
    // Followed backwards from the end: the first cell that the formula uses stands last.
    const [end = start, ...rest] = way;
    return [...rest.toReversed(), end];
  }

  /** The way in words: "by way of Belts!AC4 (Thickness left), then Belts!Y4 (Skive depth)"; '' where none was found. */
  words(start: CellPlace): string {
    const way = this.of(start);
    if (way === undefined) return '';
    const told = way.map((place) => {
      const sheet = this.#state.sheets.find(({ name }) => name === place.sheet);
      const header =
        this.#names.at(place) ?? (sheet === undefined ? '' : bookColumn(sheet, place.column)?.header) ?? '';
      return `${cellName(place.sheet, place.record, place.column)}${header === '' ? '' : ` (${header})`}`;
    });
    const shown =
      told.length <= mostNamed
        ? told
        : [...told.slice(0, mostNamed - 2), `${told.length - mostNamed + 1} more cells`, told.at(-1) ?? ''];
    return `, by way of ${shown.join(', then ')}`;
  }
}
