import type { CheckHeader } from '../../sheets/belts/check-columns.ts';
import { type Verdict, verdictOf } from '../../src/functions/checks.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { UnitSystem } from '../../src/units/quantities.ts';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { bookOf, type Cells, plover, soundBelt } from '../workbook/books.ts';

/** Belts made to be refused for one thing that their record says, each with a twin that passes. */

export interface Refused {
  readonly check: CheckHeader;
  readonly verdict: Verdict;
  readonly refused: Cells;
  readonly twin: Cells;
  /** What the series says besides, for both. */
  readonly series?: Cells;
}

export const power = { Power: 22 };
const skived = { Thickness: 10, 'Carcass thickness': null, Construction: 'EP 400/3 4+2', 'Top cover': null };

export const trials: readonly Refused[] = [
  {
    check: 'Belt tension check',
    verdict: 'fails',
    refused: { 'Known tension': 30, 'Belt rating': 25 },
    twin: { 'Known tension': 30, 'Belt rating': 35 },
  },
  {
    check: 'Belt tension check',
    verdict: 'fails',
    refused: { 'Known tension': 30, 'Belt rating': null, Construction: 'EP 250/2 4+2' },
    twin: { 'Known tension': 24, 'Belt rating': null, Construction: 'EP 400/3 4+2' },
  },
  {
    check: 'Belt tension check',
    verdict: 'not known',
    refused: { 'Known tension': 20, 'Belt rating': null, Construction: null },
    twin: { 'Known tension': 20 },
  },
  {
    check: 'Tension check',
    verdict: 'fails',
    // 340 N/mm over 8 is 42.5, over 10 it would pass as 34.
    refused: { Power: null, 'Belt rating': null, Construction: 'EP 315/3 4+2' },
    twin: { Power: null, 'Belt rating': null, Construction: 'EP 250/3 4+2' },
  },
  {
    check: 'Larger tension check',
    verdict: 'tight',
    refused: { 'Known tension': 5, Power: 90 },
    twin: { 'Known tension': 5, Power: 22 },
  },
  {
    check: 'Load per plate check',
    verdict: 'tight',
    refused: { Skew: 0, 'Known tension': 33 },
    twin: { Skew: 0, 'Known tension': 24 },
  },
  {
    check: 'Skive check',
    verdict: 'fails',
    refused: { ...skived, 'Skive depth': 4.5 },
    twin: { ...skived, 'Skive depth': 2 },
  },
  {
    check: 'Skive check',
    verdict: 'fails',
    refused: { 'Skive depth': 2, 'Top cover': 1.5 },
    twin: { 'Skive depth': 2 },
  },
  {
    check: 'Skive check',
    verdict: 'not known',
    refused: { 'Skive depth': 2, 'Top cover': null, Construction: null },
    twin: { 'Skive depth': 2 },
  },
  {
    check: 'Cover left check',
    verdict: 'tight',
    refused: { ...skived, 'Skive depth': 3.5 },
    twin: { ...skived, 'Skive depth': 1 },
  },
  { check: 'Top cover check', verdict: 'tight', refused: { 'Top cover': 2 }, twin: { 'Top cover': 3.6 } },
  {
    check: 'Carcass thickness check',
    verdict: 'tight',
    refused: { Thickness: 7.5, 'Carcass thickness': null },
    twin: { Thickness: 9.8, 'Carcass thickness': null },
  },
  {
    check: 'Carcass check',
    verdict: 'fails',
    // Worn: thickness less covers would be a carcass of 1.5 mm, that goes round 200 mm.
    refused: { Thickness: 7.5, 'Carcass thickness': null, 'Smallest pulley': 250, 'Belt rating': 30 },
    twin: { Thickness: 7.5, 'Carcass thickness': null, 'Smallest pulley': 500, 'Belt rating': 30 },
  },
  // Square renews square: 41 of plate, two trims of 100, 423 of stretch.
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Skew: 0, Replaces: 'square joint', 'Take-up travel': 0 },
    twin: { Skew: 0, Replaces: 'square joint', 'Take-up travel': 750 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'square joint', 'Take-up travel': 1400 },
    twin: { Replaces: 'same skew', 'Take-up travel': 900 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    // Between parallel cuts at 45: 300 over cos 45, and the stretch.
    refused: { Replaces: 'same skew', 'Cut-out': 300, 'Take-up travel': 840 },
    twin: { Replaces: 'same skew', 'Cut-out': 300, 'Take-up travel': 900 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'other skew', Skew: 0, 'Take-up travel': 1400 },
    twin: { Replaces: 'other skew', 'Replaced skew': 10, Skew: 0, 'Take-up travel': 1400 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'new belt', 'Take-up travel': 4200 },
    twin: { Replaces: 'new belt', 'Take-up travel': 4500 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { 'Take-up travel': 600 },
    twin: { 'Take-up travel': 600, Insert: 3 },
  },
  {
    check: 'Pulley check',
    verdict: 'fails',
    // 315 - 180 sin(44)^2 is 228.1: the rating at 45 counts beside it.
    refused: { Skew: 44, 'Smallest pulley': 225 },
    twin: { Skew: 46, 'Smallest pulley': 240 },
  },
  {
    check: 'Tension check',
    verdict: 'fails',
    // 30 kW at 2.5 m/s on 800 mm are 15 N/mm, and the slack side; at start-up direct on line 2.5 times that.
    refused: { Power: 30, 'Known tension': null, Starting: 'direct on line', 'Belt rating': 90 },
    twin: { Power: 30, 'Known tension': null, Starting: 'frequency converter', 'Belt rating': 90 },
  },
  {
    check: 'Carcass check',
    verdict: 'fails',
    refused: { 'Known tension': 31, 'Smallest pulley': 400, Skew: 45 },
    twin: { 'Known tension': 31, 'Smallest pulley': 400, 'Pulley group': 'C' },
  },
  {
    check: 'Speed check',
    verdict: 'fails',
    refused: { Speed: 5, Power: 40 },
    twin: { Speed: 3, Power: 22 },
    series: { 'Maximum speed': 4 },
  },
  {
    check: 'Temperature check',
    verdict: 'fails',
    refused: { 'Material temperature': 120 },
    twin: { 'Material temperature': 60 },
    series: { 'Maximum temperature': 90 },
  },
  {
    check: 'Temperature check',
    verdict: 'fails',
    refused: { 'Material temperature': 80, 'Maximum temperature': 60 },
    twin: { 'Material temperature': 50, 'Maximum temperature': 60 },
    series: { 'Maximum temperature': 90 },
  },
  {
    check: 'Trough check',
    verdict: 'fails',
    refused: { 'Trough angle': 35 },
    twin: { 'Trough angle': 20 },
    series: { 'Maximum trough angle': 30 },
  },
  {
    check: 'Scraper check',
    verdict: 'fails',
    refused: { 'Scraper clearance': 3 },
    twin: { 'Scraper clearance': 3, 'Skive depth': 2 },
    series: { 'Plate height': 4 },
  },
  {
    check: 'Slope check',
    verdict: 'fails',
    // 20 m on 60 m rise at 19.5 degrees.
    refused: { 'Pulley centres': 60, Lift: 20, 'Maximum slope': 18 },
    twin: { 'Pulley centres': 60, Lift: 15, 'Maximum slope': 18 },
  },
  {
    check: 'Capacity check',
    verdict: 'fails',
    // 800 mm at 30 and 20 degrees hold 0.065 m2, at 1600 kg/m3 and 2.5 m/s some 940 t/h.
    refused: { 'Trough angle': 30, 'Surcharge angle': 20, 'Bulk density': 1600, Capacity: 1000 },
    twin: { 'Trough angle': 30, 'Surcharge angle': 20, 'Bulk density': 1600, Capacity: 800 },
  },
  {
    check: 'Capacity check',
    verdict: 'fails',
    refused: { 'Trough angle': 0, 'Surcharge angle': 10, 'Bulk density': 800, Capacity: 150 },
    twin: { 'Trough angle': 20, 'Surcharge angle': 10, 'Bulk density': 800, Capacity: 150 },
  },
  {
    check: 'Plate count check',
    verdict: 'fails',
    refused: { Width: 300, Skew: 0 },
    twin: { Width: 800, Skew: 0 },
    series: { 'Minimum plates': 10 },
  },
  {
    check: 'Steel cord check',
    verdict: 'tight',
    refused: { Construction: 'St 1000 4+2', 'Carcass thickness': null },
    twin: {},
  },
  {
    check: 'Thickness check',
    verdict: 'fails',
    refused: { Thickness: 13, Construction: 'EP 400/3 6+3', 'Top cover': 6 },
    twin: { Thickness: 10 },
  },
  {
    check: 'Thickness check',
    verdict: 'fails',
    refused: { Thickness: 5.5, 'Carcass thickness': 2, 'Top cover': null, Construction: 'EP 200/2 2+1' },
    twin: { Thickness: 6.5, 'Carcass thickness': 2, 'Top cover': null, Construction: 'EP 200/2 2+1' },
  },
  {
    check: 'Thickness check',
    verdict: 'fails',
    refused: { Thickness: 8, 'Skive depth': 3 },
    twin: { Thickness: 10, 'Skive depth': 1 },
  },
  { check: 'Thickness check', verdict: 'not known', refused: { Thickness: null }, twin: {} },
  { check: 'Pulley check', verdict: 'fails', refused: { Skew: 0, 'Smallest pulley': 300 }, twin: { Skew: 0 } },
  { check: 'Pulley check', verdict: 'fails', refused: { 'Smallest pulley': 200 }, twin: { 'Smallest pulley': 250 } },
  { check: 'Pulley check', verdict: 'not known', refused: { 'Smallest pulley': null }, twin: {} },
  {
    check: 'Pulley check',
    verdict: 'fails',
    // Without a rating 25 % less, at 60 degrees as at 45: 236.
    refused: { Skew: 60, 'Smallest pulley': 230 },
    twin: { Skew: 60, 'Smallest pulley': 260 },
    series: { 'Minimum pulley at 45': null, 'Maximum edge': 60 },
  },
  {
    check: 'Pulley check',
    verdict: 'fails',
    // Rated at 22 alone: 280 there, and no less at any larger skew, where the usual 25 % would make it 236.
    refused: { Skew: 45, 'Smallest pulley': 260 },
    twin: { Skew: 45, 'Smallest pulley': 300 },
    series: { 'Minimum pulley at 22': 280, 'Minimum pulley at 45': null },
  },
  {
    check: 'Pulley check',
    verdict: 'fails',
    // Half way from 22 to 45 degrees by the squared sine: 290 - 65 (0.3208 - 0.1403)/(0.5 - 0.1403) is 257.4.
    refused: { Skew: 34.5, 'Smallest pulley': 255 },
    twin: { Skew: 34.5, 'Smallest pulley': 275 },
    series: { 'Minimum pulley at 22': 290 },
  },
  { check: 'Tension check', verdict: 'fails', refused: { 'Known tension': 36 }, twin: { 'Known tension': 20 } },
  { check: 'Tension check', verdict: 'tight', refused: { 'Known tension': 33 }, twin: { 'Known tension': 20 } },
  {
    check: 'Tension check',
    verdict: 'not known',
    refused: { Power: null, 'Known tension': null, 'Belt rating': null, Construction: null },
    twin: {},
  },
  {
    check: 'Edge check',
    verdict: 'fails',
    refused: { Skew: 0 },
    twin: { Skew: 0, Width: 790 },
    series: { 'Maximum edge': 26 },
  },
  { check: 'Hole rim check', verdict: 'fails', refused: {}, twin: { Skew: 0 }, series: { 'Minimum rim': 30 } },
  { check: 'Plate corner check', verdict: 'fails', refused: {}, twin: { Skew: 0 }, series: { 'Plate length': 120 } },
  { check: 'Service check', verdict: 'fails', refused: { Service: 'food' }, twin: { Service: 'underground' } },
  { check: 'Service check', verdict: 'fails', refused: { Service: 'magnet, underground' }, twin: { Service: 'none' } },
  { check: 'Service check', verdict: 'not known', refused: { Service: null }, twin: {} },
  { check: 'Age check', verdict: 'fails', refused: { 'Joint life': 1000 }, twin: {} },
  {
    check: 'Age check',
    verdict: 'fails',
    refused: { 'Life in passes': 10_000 },
    twin: { 'Life in passes': 10_000_000 },
  },
  { check: 'Age check', verdict: 'not known', refused: { Installed: null }, twin: {} },
  { check: 'Take-up check', verdict: 'not known', refused: { 'Take-up travel': null }, twin: {} },
  {
    check: 'Carcass check',
    verdict: 'fails',
    refused: { 'Smallest pulley': 250, 'Known tension': 30 },
    twin: { 'Smallest pulley': 630, 'Known tension': 30 },
  },
  {
    check: 'Carcass check',
    verdict: 'not known',
    refused: { 'Carcass thickness': null, Construction: null, Thickness: 9.8 },
    twin: {},
  },
  {
    check: 'Load per plate check',
    verdict: 'tight',
    refused: { Skew: 0, 'Known tension': 33.5 },
    twin: { 'Known tension': 20 },
  },
  // The smallest pulley is none where the head or the tail pulley is smaller.
  { check: 'Pulley check', verdict: 'fails', refused: { 'Head pulley': 200 }, twin: { 'Head pulley': 400 } },
  { check: 'Pulley check', verdict: 'fails', refused: { 'Tail pulley': 200 }, twin: { 'Tail pulley': 400 } },
  {
    check: 'Carcass check',
    verdict: 'fails',
    refused: { 'Head pulley': 315, 'Known tension': 30 },
    twin: { 'Head pulley': 630, 'Known tension': 30 },
  },
  {
    check: 'Other pulley check',
    verdict: 'fails',
    // The snub may be of group C: the head pulley is not.
    refused: { 'Pulley group': 'C', 'Smallest pulley': 315, 'Head pulley': 320, 'Known tension': 30 },
    twin: { 'Pulley group': 'C', 'Smallest pulley': 315, 'Head pulley': 630, 'Known tension': 30 },
  },
  {
    check: 'Larger tension check',
    verdict: 'tight',
    // The series carries 90: the belt itself does not.
    refused: { 'Known tension': 60, 'Tension method': 'belt rating' },
    twin: { 'Known tension': 38, 'Tension method': 'belt rating' },
    series: { 'Tension rating': 90 },
  },
  {
    check: 'Layers check',
    verdict: 'fails',
    refused: { 'Top cover': 11, 'Carcass thickness': null, Construction: 'EP 400' },
    twin: { 'Top cover': 4, 'Carcass thickness': null, Construction: 'EP 400' },
  },
  { check: 'Layers check', verdict: 'fails', refused: { 'Carcass thickness': 6 }, twin: { 'Carcass thickness': 5.8 } },
  {
    check: 'Carcass thickness check',
    verdict: 'not known',
    refused: { Construction: 'EP 400 8+4', 'Top cover': null },
    twin: { Construction: 'EP 400 4+2', 'Top cover': null },
  },
  {
    check: 'Entered rating check',
    verdict: 'tight',
    // 400 over 8 is 50.
    refused: { 'Belt rating': 60, 'Known tension': 20 },
    twin: { 'Belt rating': 45, 'Known tension': 20 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    // "Same skew" beside a joint of another one: the belt between is 800 (tan 45 - tan 10).
    refused: { Replaces: 'same skew', 'Replaced skew': 10, 'Take-up travel': 900 },
    twin: { Replaces: 'same skew', 'Replaced skew': 45, 'Take-up travel': 900 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'square joint', 'Replaced skew': 45, Skew: 0, 'Take-up travel': 900 },
    twin: { Replaces: 'square joint', 'Replaced skew': 0, Skew: 0, 'Take-up travel': 900 },
  },
  {
    check: 'Series check',
    verdict: 'fails',
    refused: {},
    twin: { 'Plate series': 'P0' },
    series: { 'Bolt length': 8, 'Long bolt length': 39 },
  },
  { check: 'Series check', verdict: 'not known', refused: { 'Plate series': null }, twin: {} },
  {
    check: 'Drive check',
    verdict: 'fails',
    refused: { 'Take-up type': 'screw', 'Take-up weight': 2000 },
    twin: { 'Take-up type': 'automatic', 'Take-up weight': 2000 },
  },
  {
    check: 'Drive check',
    verdict: 'fails',
    refused: {
      'Drive place': 'tail',
      'Second drive place': 'tail',
      'Second drive share': 0.5,
      'Second wrap angle': 180,
    },
    twin: { 'Drive place': 'head', 'Second drive place': 'tail', 'Second drive share': 0.5, 'Second wrap angle': 180 },
  },
  {
    check: 'Take-up weight check',
    verdict: 'fails',
    // 42.7 kg/m sag little at 6.3 kN, some 6.7 kN at the take-up: 1,369 kg on two strands.
    refused: { Capacity: 300, 'Take-up weight': 300 },
    twin: { Capacity: 300, 'Take-up weight': 4000 },
  },
  { check: 'Series check', verdict: 'not known', refused: { 'Plate series': 'none such' }, twin: {} },
];

/** All of them in one book, each refused belt before its twin, with a plate series of their own. */
export function refusedBook(units: UnitSystem): Workbook {
  const book = bookOf({
    belts: trials.flatMap(({ refused, twin }, index) =>
      [refused, twin].map((cells, place) => ({
        ...soundBelt,
        ...power,
        'Plate series': `P${index}`,
        ...cells,
        Belt: `${place === 0 ? 'R' : 'T'}${index}`,
      })),
    ),
    series: trials.map(({ series = {} }, index) => ({ ...plover, ...series, Series: `P${index}` })),
  });
  return new Workbook(units === 'metric' ? book : convertedBook(book, units).state);
}

/** What a surface says of them that it should not: a verdict for each belt and check, anything but a verdict fits. */
export function misjudged(said: (belt: string, check: CheckHeader) => unknown): string[] {
  return trials.flatMap(({ check, verdict }, index) => {
    const [refused, twin] = [said(`R${index}`, check), verdictOf(said(`T${index}`, check))];
    return [
      ...(refused === verdict ? [] : [`R${index}: ${check} is ${String(refused)}, not ${verdict}`]),
      ...(twin === 'fits' ? [] : [`T${index}: ${check} is ${twin}, not fits`]),
    ];
  });
}
