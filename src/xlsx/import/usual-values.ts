import type { BeltHeader } from '../../../sheets/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import type { SheetState } from '../../workbook/state.ts';

/**
 * Inputs that most lists do not have and most verdicts need, with what usually stands there.
 *
 * Each is offered once for the whole list and never taken unasked: a figure that nobody gave is the user's to decide.
 */
interface UsualValue {
  readonly column: BeltHeader;
  /** Absent where no value is usual. */
  readonly value?: string;
  readonly why: string;
}

const usualValues: readonly UsualValue[] = [
  { column: 'Skive depth', value: '0', why: 'not skived (common practice, no source)' },
  {
    column: 'Wrap angle',
    value: '180',
    why: 'one drive pulley without a snub, the cautious end (common practice, no source)',
  },
  {
    column: 'Drive pulley surface',
    value: 'bare steel',
    why: 'the lowest friction, the cautious end (source: the friction table in Assumptions)',
  },
  {
    column: 'Drive pulley condition',
    value: 'dirty',
    why: 'the lowest friction, the cautious end (source: the friction table in Assumptions)',
  },
  { column: 'Service', value: 'none', why: 'no special service; check belts underground or with food first' },
  {
    column: 'Hours per year',
    value: '8760',
    why: 'every hour of the year, the cautious end for ages (source: 365 days of 24 hours)',
  },
  { column: 'Joint life', why: 'no value is usual: take it from your own records of joints' },
  { column: 'Plate series', why: 'no value is usual: name the series that the plant uses' },
];

/** An input that the list leaves blank for most of its belts. */
export interface LackingInput extends UsualValue {
  /** How many of the belts have none. */
  readonly blank: number;
  readonly belts: number;
}

/** How many belts of a list leave an input blank that most verdicts need. */
export interface BlankInput {
  readonly column: BeltHeader;
  readonly blank: number;
  readonly belts: number;
}

export function blankInputs({ rows }: SheetState): BlankInput[] {
  return usualValues.map(({ column }) => {
    const at = belts.columns.findIndex(({ header }) => header === column);
    return { column, blank: rows.filter(({ cells }) => (cells[at] ?? null) === null).length, belts: rows.length };
  });
}

/** What most belts of a list lack. */
export const lackingInputs = (blanks: readonly BlankInput[]): LackingInput[] =>
  usualValues.flatMap((usual) => {
    const { blank, belts: all } = blanks.find(({ column }) => column === usual.column) ?? { blank: 0, belts: 0 };
    return all > 0 && blank > all / 2 ? [{ ...usual, blank, belts: all }] : [];
  });

/** "Wrap angle is blank for 140 of 140 belts. Usual: 180: one drive pulley …" */
export const lackingWords = ({ column, blank, belts: all, value, why }: LackingInput): string =>
  `${column} is blank for ${blank === all ? `all ${all}` : `${blank} of ${all}`} belts; ` +
  `${value === undefined ? why : `usual: ${value}, ${why}`}`;
