import { columns } from '../../src/sheet/declaration.ts';
import { fine } from './column-digits.ts';

/** What few lists give of how a belt runs: checks of it are asked only where it is there. */
export const runningInputs = columns([
  {
    header: 'Trough angle',
    kind: 'angle',
    min: 0,
    max: 60,
    digits: 0,
    doc: 'that the wing idlers stand up, degrees; 0 for a flat belt',
  },
  {
    header: 'Surcharge angle',
    kind: 'angle',
    min: 0,
    max: 45,
    digits: 0,
    doc: 'at which the material lies on the running belt, degrees: 10 free-flowing, 20 usual, 25 lumpy',
  },
  { header: 'Bulk density', kind: 'bulkDensity', above: 0, digits: 0, doc: 'of the material as it lies on the belt' },
  {
    header: 'Maximum slope',
    kind: 'angle',
    min: 0,
    max: 90,
    digits: 0,
    doc: 'steepest on which the material stays, degrees',
  },
  {
    header: 'Material temperature',
    kind: 'number',
    digits: 0,
    doc: 'of the material, in the degrees that belts and plate series give their limits in',
  },
  {
    header: 'Maximum temperature',
    kind: 'number',
    digits: 0,
    doc: 'of the material that the belt withstands, in the same degrees',
  },
  {
    header: 'Scraper clearance',
    kind: 'length',
    min: 0,
    digits: fine,
    doc: "how far plates may stand out of the belt's surface under scrapers and skirts",
  },
]);
