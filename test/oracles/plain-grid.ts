/**
 * Sheets of numbers and sums as a plain model: formulas hold no text but the rows and columns they mean, by numbers
 * that these keep when others come and go. What a formula reads as is only worked out when it is asked for.
 */

interface Spot {
  sheet: string;
  row: number;
  column: number;
}
interface Pin {
  readonly row: boolean;
  readonly column: boolean;
}
/** A range by its corners; undefined where the cells are gone. */
interface Range {
  from: Spot;
  to: Spot;
}
export interface Sum {
  readonly constant: number;
  cell: Spot | undefined;
  readonly pin: Pin;
  range: Range | undefined;
}
export type Plain = number | null | Sum;

interface PlainSheet {
  readonly name: string;
  rows: number[];
  columns: number[];
  readonly cells: Map<string, Plain>;
}

export interface Rectangle {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

const letter = (column: number): string => String.fromCharCode(65 + column);
const isSum = (content: Plain | undefined): content is Sum => typeof content === 'object' && content !== null;

export class PlainGrid {
  readonly sheets: PlainSheet[];
  #next: number;

  constructor(sheets: PlainSheet[], next: number) {
    this.sheets = sheets;
    this.#next = next;
  }

  static of(names: readonly string[], rows: number, columns: number): PlainGrid {
    const grid = new PlainGrid([], 0);
    for (const name of names) {
      const ids = (count: number): number[] => Array.from({ length: count }, () => grid.id());
      grid.sheets.push({ name, rows: ids(rows), columns: ids(columns), cells: new Map() });
    }
    return grid;
  }

  id(): number {
    this.#next += 1;
    return this.#next;
  }

  clone(): PlainGrid {
    return new PlainGrid(structuredClone(this.sheets), this.#next);
  }

  sheet(name: string): PlainSheet {
    const sheet = this.sheets.find((item) => item.name === name);
    if (sheet === undefined) throw new Error(`no sheet ${name}`);
    return sheet;
  }

  spot(sheet: string, row: number, column: number): Spot {
    const { rows, columns } = this.sheet(sheet);
    return { sheet, row: rows[row] ?? -1, column: columns[column] ?? -1 };
  }

  /** Row and column of a spot as they count now. */
  at({ sheet, row, column }: Spot): [number, number] {
    const { rows, columns } = this.sheet(sheet);
    return [rows.indexOf(row), columns.indexOf(column)];
  }

  content(sheet: string, row: number, column: number): Plain {
    const { row: down, column: right } = this.spot(sheet, row, column);
    return this.sheet(sheet).cells.get(`${down},${right}`) ?? null;
  }

  put(sheet: string, row: number, column: number, content: Plain): void {
    const { row: down, column: right } = this.spot(sheet, row, column);
    this.sheet(sheet).cells.set(`${down},${right}`, content);
  }

  #sums(): Sum[] {
    return this.sheets.flatMap(({ cells }) => [...cells.values()].filter(isSum));
  }

  grow(sheet: string, rows: number, columns: number): void {
    const item = this.sheet(sheet);
    while (item.rows.length < rows) item.rows.push(this.id());
    while (item.columns.length < columns) item.columns.push(this.id());
  }

  insert(sheet: string, axis: 'row' | 'column', at: number): void {
    const item = this.sheet(sheet);
    (axis === 'row' ? item.rows : item.columns).splice(at, 0, this.id());
  }

  remove(sheet: string, axis: 'row' | 'column', at: number): void {
    const item = this.sheet(sheet);
    const list = axis === 'row' ? item.rows : item.columns;
    const gone = list[at];
    for (const sum of this.#sums()) {
      if (sum.cell?.sheet === sheet && sum.cell[axis] === gone) sum.cell = undefined;
      const { range } = sum;
      if (range?.from.sheet !== sheet) continue;
      if (range.from[axis] === gone && range.to[axis] === gone) sum.range = undefined;
      else if (range.from[axis] === gone) range.from[axis] = list[at + 1] ?? -1;
      else if (range.to[axis] === gone) range.to[axis] = list[at - 1] ?? -1;
    }
    list.splice(at, 1);
    for (const [key] of item.cells) if (key.split(',')[axis === 'row' ? 0 : 1] === String(gone)) item.cells.delete(key);
  }

  /** A content as it reads elsewhere; undefined when a reference would leave its sheet. */
  copied(content: Plain, down: number, right: number, to: string): Plain | undefined {
    if (!isSum(content)) return content;
    const moved = (spot: Spot | undefined, pin: Pin): Spot | undefined | null => {
      if (spot === undefined) return undefined;
      const [row, column] = this.at(spot);
      // A reference to the formula's own sheet goes along to the sheet that it is copied to.
      const target = this.spot(spot.sheet, row + (pin.row ? 0 : down), column + (pin.column ? 0 : right));
      return target.row < 0 || target.column < 0 ? null : target;
    };
    const free = { row: false, column: false };
    const cell = moved(content.cell, content.pin);
    const [from, end] = [moved(content.range?.from, free), moved(content.range?.to, free)];
    if (cell === null || from === null || end === null || to === '') return undefined;
    return { ...content, cell, range: from === undefined || end === undefined ? undefined : { from, to: end } };
  }

  /** Moves a block's contents, and all that refers to it, so many rows and columns on. */
  move({ sheet, row, column, rows, columns }: Rectangle, to: string, down: number, right: number): void {
    this.grow(to, down + rows, right + columns);
    const inside = (spot: Spot): boolean => {
      const [r, c] = this.at(spot);
      return spot.sheet === sheet && r >= row && r < row + rows && c >= column && c < column + columns;
    };
    const goes = (spot: Spot): Spot => {
      const [r, c] = this.at(spot);
      return this.spot(to, r - row + down, c - column + right);
    };
    const contents = Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (__, c) => this.content(sheet, row + r, column + c)),
    );
    const clear = (r: number, c: number): void => this.put(sheet, row + r, column + c, null);
    contents.forEach((line, r) => line.forEach((_, c) => clear(r, c)));
    contents.forEach((line, r) => line.forEach((content, c) => this.put(to, down + r, right + c, content)));
    for (const sum of this.#sums()) {
      if (sum.cell !== undefined && inside(sum.cell)) sum.cell = goes(sum.cell);
      if (sum.range !== undefined && inside(sum.range.from) && inside(sum.range.to))
        sum.range = { from: goes(sum.range.from), to: goes(sum.range.to) };
    }
  }

  /** A cell's content as it is typed on its sheet; references to any sheet are written with its name. */
  text(sheet: string, row: number, column: number): string | number | null {
    const content = this.content(sheet, row, column);
    if (!isSum(content)) return content;
    const named = (spot: Spot, pin: Pin): string => {
      const [r, c] = this.at(spot);
      return `${pin.column ? '$' : ''}${letter(c)}${pin.row ? '$' : ''}${r + 2}`;
    };
    const { cell, pin, range, constant } = content;
    const free = { row: false, column: false };
    const one = cell === undefined ? '#REF!' : `${cell.sheet}!${named(cell, pin)}`;
    const many =
      range === undefined ? '#REF!' : `${range.from.sheet}!${named(range.from, free)}:${named(range.to, free)}`;
    return `=${constant}+${one}*2+SUM(${many})`;
  }

  /** A cell's value; undefined for one that rests on itself. */
  value(
    sheet: string,
    row: number,
    column: number,
    asked: ReadonlySet<string> = new Set(),
  ): number | '#REF!' | undefined {
    const content = this.content(sheet, row, column);
    if (!isSum(content)) return content ?? 0;
    const key = `${sheet} ${row} ${column}`;
    if (asked.has(key)) return undefined;
    const within = new Set([...asked, key]);
    const values: (number | '#REF!' | undefined)[] = [];
    const ask = (spot: Spot): number | '#REF!' | undefined => this.value(spot.sheet, ...this.at(spot), within);
    if (content.cell === undefined) values.push('#REF!');
    else {
      const one = ask(content.cell);
      values.push(typeof one === 'number' ? one * 2 : one);
    }
    if (content.range === undefined) values.push('#REF!');
    else {
      const [top, left] = this.at(content.range.from);
      const [bottom, right] = this.at(content.range.to);
      for (let r = top; r <= bottom; r += 1)
        for (let c = left; c <= right; c += 1) values.push(ask(this.spot(content.range.from.sheet, r, c)));
    }
    if (values.includes(undefined)) return undefined;
    if (values.includes('#REF!')) return '#REF!';
    return values.reduce<number>((total, value) => total + Number(value), content.constant);
  }

  cells(): { sheet: string; row: number; column: number }[] {
    return this.sheets.flatMap(({ name, rows, columns }) =>
      rows.flatMap((_, row) => columns.map((__, column) => ({ sheet: name, row, column }))),
    );
  }

  get circular(): boolean {
    return this.cells().some(({ sheet, row, column }) => this.value(sheet, row, column) === undefined);
  }
}
