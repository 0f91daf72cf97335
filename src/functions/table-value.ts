import { define, Refusal } from '../formula/define.ts';

/** Values between the entries of a table. */

/**
 * Value of a table at a place between its entries, on the straight line from one entry to the next.
 *
 * For a table of one's own, as a supplier prints it: belt mass by width, price by length. The entries may stand in any
 * order; of a place that comes twice the mean counts. Beyond its ends the table says nothing, and neither does this.
 */
export const tableValue = define({
  name: 'TABLEVALUE',
  summary: 'value of a table at a place between its entries, on straight lines',
  parameters: {
    at: { kind: 'number', doc: 'the place, from the first to the last of the table' },
    places: { kind: 'numbers', doc: "the places of the table's entries, in one row or column" },
    values: { kind: 'numbers', doc: 'the value at each of the places, laid out like them' },
  },
  result: { kind: 'number', doc: 'value at the place' },
  source: 'geometry of straight lines',
  example: ['=TABLEVALUE(86,{80;100;150},{1.92;1.78;1.58})', 1.878],
  calculate({ at, places, values }) {
    const [least, most] = [Math.min(...places), Math.max(...places)];
    if (at < least || at > most)
      throw new Refusal('at', `must be within the table, which goes from ${least} to ${most}`);
    const meanAt = (place: number): number => {
      const here = values.filter((_, index) => places[index] === place);
      return here.reduce((sum, value) => sum + value, 0) / here.length;
    };
    const below = Math.max(...places.filter((place) => place <= at));
    if (below === most) return meanAt(below);
    const above = Math.min(...places.filter((place) => place > at));
    return meanAt(below) + ((at - below) * (meanAt(above) - meanAt(below))) / (above - below);
  },
  formula() {
    const upTo = 'SUMPRODUCT(--({places}<={at}))';
    const mean = (place: string): string =>
      `SUMPRODUCT(--({places}=${place}),{values})/SUMPRODUCT(--({places}=${place}))`;
    const [below, above] = [`SMALL({places},${upTo})`, `SMALL({places},${upTo}+1)`];
    return (
      `IF(OR({at}<MIN({places}),{at}>MAX({places})),{refused},IF(${upTo}=COUNT({places}),${mean('MAX({places})')},` +
      `${mean(below)}+({at}-${below})*(${mean(above)}-${mean(below)})/(${above}-${below})))`
    );
  },
});
