import { type CellArea, usedBy } from '../formula/references.ts';
import { columnDependents, type Dependent, nameDependents } from './dependence.ts';
import { type CellPlace, placeKey } from './place.ts';
import { compiledSheets, declarationOf } from './declared.ts';
import type { BookNames } from './names.ts';
import { recordInRow } from '../formula/address.ts';
import { type BookState, contentAt } from './state.ts';
import { nodesOnCircles } from './strong-components.ts';

/**
 * Users' formulas that depend on their own result through the sheets' formulas.
 *
 * The engine sees circles among cells that users typed, but computed cells are plain values to it: a skive that is
 * typed as a share of the clamped thickness would go round and round, or settle on a number that no other program
 * gives.
 *
 * Cells and what they lead to are the nodes of a graph. A range leads to its formula from the nodes of a tree over its
 * column, a few for however many cells, so that ten thousand running totals make no hundred million edges.
 */

/** Whether a change stays in its record: kin of a whole in the same sheet are the whole itself. */
const staysIn = (sheet: string, { sheet: other, reach }: Dependent): boolean =>
  reach === 'record' || (reach === 'kin' && sheet === other && declarationOf(sheet)?.partOf === undefined);

class DependenceGraph {
  readonly edges: number[][] = [];

  node(): number {
    return this.edges.push([]) - 1;
  }

  join(from: number, to: number): void {
    this.edges[from]?.push(to);
  }
}

/** The cells of one column that lead somewhere, by record, and what is meant by any of its records. */
class Track {
  readonly #graph: DependenceGraph;
  readonly #points: { readonly record: number; readonly node: number }[] = [];
  readonly #reached = new Map<number, number>();
  #all: number | undefined;
  /** A tree in a list: the children of place i stand at 2i and 2i + 1, the points from `#size` on. */
  #tree: number[] = [];
  #size = 0;

  constructor(graph: DependenceGraph) {
    this.#graph = graph;
  }

  cell(record: number, node: number): void {
    this.#points.push({ record, node });
  }

  /** The node of what moves here in one record, or in all, when something else does. */
  reached(record: number | 'all'): number {
    if (record === 'all') return (this.#all ??= this.#graph.node());
    const known = this.#reached.get(record);
    if (known !== undefined) return known;
    const node = this.#graph.node();
    this.#reached.set(record, node);
    this.cell(record, node);
    return node;
  }

  /** Builds the tree once all cells are there. */
  close(): void {
    this.#points.sort((one, other) => one.record - other.record);
    this.#size = this.#points.length;
    this.#tree = Array.from({ length: 2 * this.#size }, (_, place) => this.#points[place - this.#size]?.node ?? -1);
    for (let place = this.#size - 1; place >= 1; place -= 1) {
      const node = this.#graph.node();
      this.#tree[place] = node;
      for (const child of [2 * place, 2 * place + 1]) this.#graph.join(this.#tree[child] ?? node, node);
    }
  }

  /** How many points stand before a record. */
  #before(record: number): number {
    let [low, high] = [0, this.#size];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.#points[middle]?.record ?? Infinity) < record) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Leads from the records of an area to a formula. */
  use({ top, bottom }: CellArea, formula: number): void {
    if (this.#all !== undefined && bottom >= 1) this.#graph.join(this.#all, formula);
    let low = this.#before(recordInRow(top + 1)) + this.#size;
    let high = this.#before(recordInRow(bottom + 1) + 1) + this.#size;
    for (; low < high; low >>= 1, high >>= 1) {
      if (low % 2 === 1) this.#graph.join(this.#tree[low++] ?? formula, formula);
      if (high % 2 === 1) this.#graph.join(this.#tree[--high] ?? formula, formula);
    }
  }
}

/** The columns of all sheets, each made when it is first asked for; sheets by their names without case. */
class Tracks {
  readonly #graph: DependenceGraph;
  readonly #sheets = new Map<string, Map<number, Track>>();

  constructor(graph: DependenceGraph) {
    this.#graph = graph;
  }

  at(sheet: string, column: number): Track {
    const name = sheet.toLowerCase();
    const columns = this.#sheets.get(name) ?? new Map<number, Track>();
    this.#sheets.set(name, columns);
    const track = columns.get(column) ?? new Track(this.#graph);
    columns.set(column, track);
    return track;
  }

  close(): void {
    for (const columns of this.#sheets.values()) for (const track of columns.values()) track.close();
  }

  use(sheet: string, area: CellArea, formula: number): void {
    const columns = this.#sheets.get(sheet.toLowerCase());
    if (columns === undefined) return;
    if (area.right - area.left < columns.size) {
      for (let column = area.left; column <= area.right; column += 1) columns.get(column)?.use(area, formula);
    } else
      for (const [column, track] of columns) if (column >= area.left && column <= area.right) track.use(area, formula);
  }
}

interface Use {
  readonly areas: readonly { readonly sheet: string; readonly area: CellArea }[];
  readonly names: readonly string[];
}

interface Followers {
  readonly here: readonly Dependent[];
  readonly everywhere: number | undefined;
}

/** Computed columns, as `sheet.column`, that some formula refers to: where what follows from a cell matters. */
function columnsUsed(uses: readonly Use[]): ReadonlySet<string> {
  const used = new Set<string>();
  const seen = new Set<string>();
  for (const { areas } of uses) {
    for (const { sheet, area } of areas) {
      const mark = `${sheet.toLowerCase()}.${area.left}:${area.right}`;
      if (seen.has(mark)) continue;
      seen.add(mark);
      for (const { declaration, columns } of compiledSheets.values()) {
        if (declaration.name.toLowerCase() !== sheet.toLowerCase()) continue;
        for (let column = area.left; column <= Math.min(area.right, columns.length - 1); column += 1)
          used.add(`${declaration.name}.${column}`);
      }
    }
  }
  return used;
}

/** Places (as `placeKey` writes them) of formulas on a circle that passes through a computed cell. */
export function circularCells(cells: readonly CellPlace[], state: BookState, names: BookNames): Set<string> {
  const uses = cells.map((cell): Use => {
    const used = usedBy(String(contentAt(state, cell) ?? '')) ?? { areas: [], names: [] };
    return {
      areas: used.areas.map((area) => ({ sheet: area.sheet ?? cell.sheet, area })),
      names: used.names.map((name) => name.toLowerCase()),
    };
  });
  const graph = new DependenceGraph();
  const tracks = new Tracks(graph);
  const named = new Map<string, number>();
  const wanted = columnsUsed(uses);
  const nodes = cells.map(() => graph.node());
  const followers = new Map<string, Followers>();
  /** What follows from any cell of a column, or from a name: in its own record, and in all by one node. */
  const following = (mark: string, from: string, dependents: () => readonly Dependent[]): Followers => {
    const known = followers.get(mark);
    if (known !== undefined) return known;
    const all = dependents().filter((next) => wanted.has(`${next.sheet}.${next.column}`));
    const far = all.filter((next) => !staysIn(from, next));
    const everywhere = far.length === 0 ? undefined : graph.node();
    if (everywhere !== undefined)
      for (const { sheet, column } of far) graph.join(everywhere, tracks.at(sheet, column).reached('all'));
    const made = { here: all.filter((next) => staysIn(from, next)), everywhere };
    followers.set(mark, made);
    return made;
  };
  cells.forEach((cell, index) => {
    const { sheet, record, column } = cell;
    const node = nodes[index] ?? 0;
    tracks.at(sheet, column).cell(record, node);
    const name = names.at(cell);
    if (name !== undefined) named.set(name.toLowerCase(), node);
    const mark = name === undefined ? `${sheet}.${column}` : `=${name}`;
    const { here, everywhere } = following(mark, sheet, () =>
      name === undefined ? columnDependents(sheet, column) : nameDependents(name),
    );
    for (const next of here) graph.join(node, tracks.at(next.sheet, next.column).reached(record));
    if (everywhere !== undefined) graph.join(node, everywhere);
  });
  tracks.close();
  uses.forEach(({ areas, names: called }, index) => {
    const node = nodes[index] ?? 0;
    for (const { sheet, area } of areas) tracks.use(sheet, area, node);
    for (const name of called) {
      const source = named.get(name);
      if (source !== undefined) graph.join(source, node);
    }
  });
  const onCircle = nodesOnCircles(graph.edges);
  return new Set(cells.flatMap((cell, index) => (onCircle[nodes[index] ?? 0] === 1 ? [placeKey(cell)] : [])));
}
