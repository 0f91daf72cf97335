import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { belts } from '../../sheets/belts/index.ts';
import { sourceMarks } from '../sheet/source-marks.ts';
import { demoBook } from '../workbook/demo.ts';
import { namedValue } from '../workbook/declared.ts';
import { type Explanation, explained } from '../workbook/explanation.ts';
import { type CellPlace, placeKey } from '../workbook/place.ts';
import { Workbook } from '../workbook/workbook.ts';
import type { Section } from './entry.ts';
import { figure } from './value-section.ts';

const most = 12;

/** The cells of some trees, each as it is explained where it comes first. */
class Cells {
  readonly #seen = new Set<string>();
  readonly #whole = new Map<string, Explanation>();
  readonly #names = new Map<string, ReadonlySet<string>>();

  add(book: Workbook, place: CellPlace): void {
    const keep = (cell: Explanation): void => {
      if (!cell.repeated) this.#whole.set(placeKey(cell.place), cell);
      for (const part of cell.parts) keep(part);
    };
    keep(explained(book, place, this.#seen));
  }

  /** The named values that a cell was made of, in the branches of its formulas that were taken. */
  restsOn(place: CellPlace): ReadonlySet<string> {
    const key = placeKey(place);
    const known = this.#names.get(key);
    if (known !== undefined) return known;
    const cell = this.#whole.get(key);
    const names =
      cell?.origin === 'named value'
        ? new Set([cell.header])
        : new Set(cell?.parts.flatMap((part) => [...this.restsOn(part.place)]));
    this.#names.set(key, names);
    return names;
  }
}

/**
 * How many verdicts of the demo's belts rest on each figure that was recalled and not looked up.
 *
 * A figure carries a verdict when it was used on the way to it, whether or not another figure would change the verdict.
 */
function carried(): ReadonlyMap<string, number> {
  const book = new Workbook(demoBook('metric'));
  const counts = new Map<string, number>();
  const cells = new Cells();
  book.sheet(belts.name).rows.forEach((_, record) => {
    cells.add(book, { sheet: belts.name, record, column: book.column(belts.name, 'Verdict') });
    for (const { header } of checkColumns) {
      const place = { sheet: belts.name, record, column: book.column(belts.name, header) };
      for (const name of cells.restsOn(place))
        if (sourceMarks(namedValue(name)?.source ?? '').includes('from memory'))
          counts.set(name, (counts.get(name) ?? 0) + 1);
    }
  });
  return counts;
}

/** The figures that someone with the standards at hand should confirm first. */
export function confirmSection(): Section {
  const counts = [...carried()].toSorted(([, one], [, other]) => other - one).slice(0, most);
  return {
    about: [
      `Of the figures marked "from memory", these ${counts.length} carry the most verdicts of the demo's belts. If ` +
        'you have the standards at hand, confirm these first, and write the clause into the column Source.',
    ],
    entry: 'name',
    layout: 'table',
    first: 'carries',
    groups: [
      {
        title: '',
        entries: counts.flatMap(([name, count]) => {
          const named = namedValue(name);
          if (named === undefined) return [];
          return [
            {
              name: `\`${name}\``,
              says: named.doc,
              facts: [
                { label: 'value', text: figure(named, 'metric') },
                { label: 'carries', text: `${count} verdicts` },
                { label: 'source', text: named.source },
              ],
            },
          ];
        }),
      },
    ],
  };
}
