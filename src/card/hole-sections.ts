import type { HoleRow } from '../drawing/hole-table.ts';
import { fineText, type LengthUnit, tapeNumber } from '../drawing/tape.ts';
import type { JobCard } from './job-card.ts';
import { bold, type Cell, plain, type Section, type TableColumn } from './section.ts';

/** The holes of a joint as a card lists them. */

/**
 * Holes in pairs: a plate's holes in the two belt ends lie the same way along the cut.
 *
 * Where a row's two do not, each has a row of its own.
 *
 * For tests: a printed hole table is read back.
 */
export function holePairs(
  holes: readonly HoleRow[],
): { readonly plate: number; readonly trailing?: HoleRow; readonly leading?: HoleRow }[] {
  const plates = [...new Set(holes.map(({ plate }) => plate))];
  return plates.flatMap((plate) => {
    const of = (end: HoleRow['end']): HoleRow[] =>
      holes
        .filter((hole) => hole.plate === plate && hole.end === end)
        .toSorted((one, other) => one.run.exact - other.run.exact);
    const [trailing, leading] = [of('trailing'), of('leading')];
    const alike =
      trailing.length === leading.length &&
      trailing.every(({ run, step }, at) => run.tape === leading[at]?.run.tape && step === leading[at]?.step);
    if (!alike)
      return [
        ...trailing.map((hole) => ({ plate, trailing: hole })),
        ...leading.map((hole) => ({ plate, leading: hole })),
      ];
    return trailing.map((hole, at) => ({
      plate,
      trailing: hole,
      ...(leading[at] === undefined ? {} : { leading: leading[at] }),
    }));
  });
}

/** How far holes lie from the cut: one distance for all of them, unless a drawing came about otherwise. */
const distances = (holes: readonly HoleRow[], unit: LengthUnit): string =>
  [...new Set(holes.map(({ back }) => fineText(back.exact, unit)))].join(' or ');

/** None for a joint without holes. */
export function holeSections({ holes, unit }: JobCard): Section[] {
  if (holes.length === 0) return [];
  const number = (value: number | undefined): Cell => plain(value === undefined ? '' : tapeNumber(value, unit));
  const end = (title: string): TableColumn => ({ title, width: 20, align: 'end' });
  return [
    { type: 'title', text: `Holes, in ${unit === 'mm' ? 'millimetres' : 'inches'} on the tape` },
    {
      type: 'note',
      text:
        `Run: running dimension along the cut from the marked corner. Step: distance from the previous hole. Every ` +
        `hole is ${distances(holes, unit)} from the cut, square to it, in its own belt end. Along and across: from ` +
        `the marked corner, along the edge in the direction of travel (minus: against it) and square to the edge. ` +
        `Each run is rounded by itself: no hole is off by more than ${unit === 'mm' ? '0.5 mm' : '1/32 in'}.`,
    },
    {
      type: 'table',
      columns: [
        { title: 'Plate', width: 12, align: 'end' },
        end('Run'),
        end('Step'),
        { title: 'Trailing end: hole', width: 22, align: 'end' },
        end('along'),
        end('across'),
        { title: 'Leading end: hole', width: 22, align: 'end' },
        end('along'),
        end('across'),
      ],
      rows: holePairs(holes).map(({ plate, trailing, leading }) => {
        const one = trailing ?? leading;
        return [
          bold(String(plate)),
          number(one?.run.tape),
          number(one?.step),
          plain(trailing === undefined ? '' : String(trailing.number)),
          number(trailing?.along.tape),
          number(trailing?.across.tape),
          plain(leading === undefined ? '' : String(leading.number)),
          number(leading?.along.tape),
          number(leading?.across.tape),
        ];
      }),
    },
  ];
}
