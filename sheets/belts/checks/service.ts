import { flagsCalledFor, type ServiceFlag, serviceFlags } from '../../../src/functions/series.ts';
import { type CheckedBelt, declareChecks, type SeriesHeader } from '../check-declaration.ts';
import { plate } from '../inputs.ts';
import { seriesLabel } from './compared.ts';

/** The series' columns that say what its material stands. */
const flagColumns: Readonly<Record<ServiceFlag, SeriesHeader>> = {
  flameResistant: 'Flame resistant',
  nonMagnetic: 'Non-magnetic',
  corrosionResistant: 'Corrosion resistant',
  food: 'Food grade',
};

const calledFor = (belt: CheckedBelt): SeriesHeader[] =>
  flagsCalledFor(belt.text('Service')).map((flag) => flagColumns[flag]);

const flagText = (belt: CheckedBelt, columns: readonly SeriesHeader[]): string =>
  columns
    .map((column) => {
      const value = belt.ofSeries(column);
      return `${column}: ${typeof value === 'string' ? value : 'not given'}`;
    })
    .join(', ');

/** What the plates' material must stand. */
export const serviceChecks = declareChecks([
  {
    word: 'service',
    doc: "service against the series' material",
    source: "30 CFR 75.1731(d) for underground belts, the rest common practice, no source; the supplier's material",
    look: 'Plate series',
    verdict: {
      formula:
        `IF(ISNUMBER({Series row}),` +
        `SERVICECHECK({Service},${serviceFlags.map((flag) => plate(flagColumns[flag])).join(',')}),"not known")`,
      given: { label: 'the service', value: (belt) => (belt.text('Service') === '' ? null : belt.text('Service')) },
      limit: {
        label: seriesLabel('the material'),
        value: (belt) => (calledFor(belt).length === 0 ? null : flagText(belt, calledFor(belt))),
      },
      message(belt) {
        const lacking = calledFor(belt).filter((column) => String(belt.ofSeries(column)).toLowerCase() === 'no');
        return (
          `The service, "${belt.text('Service')}", needs plate properties that series ${belt.series} does not have ` +
          `(${flagText(belt, lacking)}).`
        );
      },
    },
    cures: ['other series'],
  },
]);
