import type { BeltHeader } from '../../../sheets/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import type { Content } from '../../formula/values.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import { inSystemUnit, unitNamed } from '../../units/reading.ts';

/**
 * Belts as US lists write them: "3 ply 330 PIW 3/16 x 1/16", "2-ply 220".
 *
 * The figure after the plies is the rated working tension in pounds per inch of width, of the whole belt; the covers
 * follow in inches, the carrying side first. It tells neither what the fabric is nor its strength, so a designation of
 * ISO 14890 can't be made of it: what it does say fills the belt's rating and top cover, where the list leaves them
 * blank. Source: common practice, no source.
 */
interface UsDesignation {
  /** lbf/in */
  readonly rating: number;
  readonly plies?: number;
  /** Inches. */
  readonly topCover?: number;
  readonly bottomCover?: number;
}

/** Ratings outside these are something else: a year, a width, a strength in N/mm with a code. From memory. */
const [leastRating, mostRating] = [70, 3000];
/** Covers above an inch are no covers. From memory. */
const mostCover = 1;

const plies = /\b(\d{1,2})\s*-?\s*(?:ply|plies|pl)\b/i;
const rated = /\b(\d{2,4})\s*(?:#|p\.?i\.?w\b\.?|lbs?\.?\s*(?:\/|per)\s*in(?:ch)?\b\.?)/i;
/** "2-ply 220", "3 ply / 330": plies, then a figure that no unit follows. */
const pliesThenFigure =
  /\b\d{1,2}\s*-?\s*(?:ply|plies)\b[\s,/-]*(\d{3,4})(?=$|[\s,;])(?!\s*(?:mm|in\b|ft|m\b|["'x×/]))/i;
const figure = String.raw`(\d+\s*\/\s*\d+|\d*\.\d+|0)\s*(?:in\.?|["″”])?`;
const covers = new RegExp(String.raw`(?:^|[\s,;(])${figure}\s*(?:[x×*+]|by)\s*${figure}(?=$|[\s,;)])`, 'i');

const inches = (text: string): number => {
  const [upper = '', lower] = text.split('/');
  return lower === undefined ? Number(upper) : Number(upper) / Number(lower);
};

/** What a text says, or undefined when it is no designation of this kind. For tests: designations are read. */
export function usDesignation(text: string): UsDesignation | undefined {
  const rating = Number(rated.exec(text)?.[1] ?? pliesThenFigure.exec(text)?.[1]);
  if (!(rating >= leastRating && rating <= mostRating)) return undefined;
  const count = plies.exec(text)?.[1];
  const layers = covers.exec(text);
  const [topCover, bottomCover] = [layers?.[1], layers?.[2]].map((side) => (side === undefined ? NaN : inches(side)));
  const both = [topCover, bottomCover].every((side) => side !== undefined && side >= 0 && side <= mostCover);
  return {
    rating,
    ...(count === undefined ? {} : { plies: Number(count) }),
    ...(both && topCover !== undefined && bottomCover !== undefined ? { topCover, bottomCover } : {}),
  };
}

/** "PN" is polyester with nylon across, which ISO 14890 calls EP. From memory. */
export const isoDesignation = (text: string): string => text.replace(/^(\s*(?:\d{3,4}\s+)?)PN(?=[\s-]?\d)/i, '$1EP');

const at = (header: BeltHeader): number => belts.columns.findIndex((column) => column.header === header);

/**
 * Fills what a US designation says and the list leaves blank, in the book's units. Answers the headers that it filled.
 */
export function fillFromDesignation(cells: Content[], units: UnitSystem): BeltHeader[] {
  const text = cells[at('Construction')];
  const read = typeof text === 'string' ? usDesignation(text) : undefined;
  if (read === undefined) return [];
  const filled: BeltHeader[] = [];
  const fill = (header: BeltHeader, size: number | undefined, symbol: string): void => {
    const [place, kind] = [at(header), belts.columns[at(header)]?.kind];
    const unit = kind === undefined ? undefined : unitNamed(symbol, kind, 'us');
    if (size === undefined || kind === undefined || unit === undefined || (cells[place] ?? null) !== null) return;
    cells[place] = inSystemUnit(size, unit, kind, units);
    filled.push(header);
  };
  fill('Belt rating', read.rating, 'lbf/in');
  fill('Top cover', read.topCover, 'in');
  return filled;
}
