import { declareChecks } from '../check-declaration.ts';
import { atSkew, seriesLabel, ofBelt, ofSeries } from './compared.ts';

/** What the plate series can do: its range of thickness, its rating, its place beside the belt's edge. */
export const plateChecks = declareChecks([
  {
    word: 'thickness',
    doc: "clamped thickness against the series' range",
    source: "the supplier's range",
    look: 'Thickness',
    value: ofBelt('Clamped thickness', 'the clamped thickness'),
    minimum: ofSeries('Least thickness', seriesLabel('the least thickness')),
    maximum: ofSeries('Greatest thickness', seriesLabel('the greatest thickness')),
    cures: ['other series', 'skive'],
  },
  {
    word: 'tension',
    defers: true,
    doc: "working tension against the series' rating",
    source: "the supplier's rating; the working tension as its column says",
    look: 'Plate series',
    value: ofBelt('Working tension', (belt) => {
      const from = belt.text('Tension from');
      return `the working tension (${from === 'entered' ? 'as entered' : `from ${from}`})`;
    }),
    maximum: ofSeries('Tension rating', seriesLabel('the rating')),
    remark: (belt) =>
      belt.text('Tension from') === 'permitted'
        ? "That is the belt's own permitted tension, as a last resort: enter Capacity or Power with what goes with " +
          'them, or the tension itself, for a surer figure.'
        : '',
    cures: ['other series', 'lower tension'],
  },
  {
    word: 'edge',
    doc: "edge distance left against the series' limits",
    source: "geometry of the cut; the supplier's limits",
    look: 'Skew',
    value: ofBelt('Edge left', (belt) => `the edge distance left ${atSkew(belt)}`),
    minimum: ofSeries('Least edge', seriesLabel('the least edge distance')),
    maximum: ofSeries('Greatest edge', seriesLabel('the greatest edge distance')),
    cures: ['nearest skews', 'other series'],
  },
]);
