import { type CheckedBelt, declareChecks } from '../check-declaration.ts';
import { plate } from '../inputs.ts';
import { atSkew, seriesLabel, ofBelt, ofSeries, worked } from './compared.ts';

const seriesFaults = (belt: CheckedBelt): string => {
  const faults = belt.ofSeries('Series faults');
  return typeof faults === 'string' ? faults : '';
};

/** What the plate series can do: its range of thickness, its rating, its place beside the belt's edge. */
export const plateChecks = declareChecks([
  {
    word: 'series',
    doc: "whether plates of the series' figures can be made",
    source: 'geometry of the plate',
    look: 'Plate series',
    verdict: {
      formula:
        `IF(ISNUMBER({Series row}),IFERROR(IF(${plate('Series faults')}="","fits","fails"),"not known"),"not ` +
        `known")`,
      given: { label: seriesLabel('what is wrong'), value: (belt) => seriesFaults(belt) || null },
      limit: { label: 'what can be made', value: () => 'nothing wrong' },
      message: (belt) => `Plates of series ${belt.series} can't be made as they are entered: ${seriesFaults(belt)}.`,
    },
    cures: ['other series', (belt) => `Correct the figures of ${belt.series} in the sheet Plate series.`],
  },
  {
    word: 'thickness',
    doc: "clamped thickness against the series' range",
    source: "the supplier's range",
    look: 'Thickness',
    value: ofBelt('Clamped thickness', 'the clamped thickness'),
    minimum: ofSeries('Minimum thickness', seriesLabel('the minimum thickness')),
    maximum: ofSeries('Maximum thickness', seriesLabel('the maximum thickness')),
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
      belt.text('Tension from') === 'belt rating'
        ? 'That is the belt rating, used as a last resort. For a surer figure enter Capacity or Power with their ' +
          'inputs, or the tension itself.'
        : '',
    cures: ['other series', 'lower tension'],
  },
  {
    word: 'edge',
    doc: "edge clearance against the series' limits",
    source: "geometry of the cut; the supplier's limits",
    look: 'Skew',
    value: ofBelt('Edge clearance', (belt) => `the edge clearance ${atSkew(belt)}`),
    minimum: ofSeries('Minimum edge', seriesLabel('the minimum edge')),
    maximum: ofSeries('Maximum edge', seriesLabel('the maximum edge')),
    cures: ['nearest skews', 'other series'],
  },
  {
    word: 'hole rim',
    source: "geometry of the cut; the supplier's minimum, otherwise RimDistance",
    doc: "belt between the outermost hole's rim and the belt's edge, square to the edge, against its minimum",
    look: 'Skew',
    value: ofBelt('Rim left', (belt) => `the belt between the outermost hole and the belt's edge ${atSkew(belt)}`),
    minimum: ofBelt('Rim needed', (belt) =>
      typeof belt.ofSeries('Minimum rim') === 'number'
        ? seriesLabel('the minimum rim')(belt)
        : 'the minimum rim that RimDistance sets',
    ),
    cures: ['nearest skews', 'other series'],
  },
  {
    word: 'plate corner',
    source: 'geometry of the cut; CornerDistance',
    doc: "the outer plate's acute corner against the belt's edge, square to the edge",
    look: 'Skew',
    // Rounded: a corner just on the edge must not fail for the last digit of a cosine.
    value: worked(
      'ROUND({Corner left},9)',
      'Corner left',
      (belt) => `the distance of the outer plate's corner from the belt's edge ${atSkew(belt)}`,
    ),
    minimum: worked('CornerDistance', 'Corner left', 'the minimum that CornerDistance sets'),
    remark: (belt) =>
      (belt.number('Corner left') ?? 0) < 0
        ? 'One corner on each belt end projects over the edge and can catch on structure and scrapers.'
        : '',
    cures: [
      'nearest skews',
      'other series',
      () =>
        'Ask the supplier whether that corner may be cut off. If so, enter in CornerDistance how far it may ' +
        'project, as a negative number.',
    ],
  },
]);
