import { columnOf } from '../workbook/books.ts';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import type { Workbook } from '../../src/workbook/workbook.ts';
import type { Assumptions, Belt } from './plain-belt.ts';
import { plainJoint, type Series, summary } from './plain-joint.ts';
import type { BeltHeader, HeaderOf, SeriesHeader, SheetName } from '../../sheets/index.ts';
import { placeWords } from '../workbook/place-words.ts';

/** A book's inputs as typed records, for the plain loops. */

type Joint = ReturnType<typeof plainJoint>;

export class PlainFleet {
  readonly belts: Belt[];
  readonly series = new Map<string, Series>();
  readonly named: Record<string, number> = {};

  constructor(book: Workbook) {
    const number = <Sheet extends SheetName>(sheet: Sheet, record: number, header: HeaderOf<Sheet>): number => {
      const value = book.read(sheet, record, header);
      return typeof value === 'number' ? value : Number.NaN;
    };
    const text = <Sheet extends SheetName>(sheet: Sheet, record: number, header: HeaderOf<Sheet>): string =>
      String(book.read(sheet, record, header) ?? '');
    for (const record of book.sheet('Assumptions').rows.keys()) {
      this.named[text('Assumptions', record, 'Name')] = number('Assumptions', record, 'Value');
    }
    const rates = new Map(
      [...book.sheet('Suppliers').rows.keys()].map((record) => [
        text('Suppliers', record, 'Supplier').toLowerCase(),
        text('Suppliers', record, 'Currency') === 'EUR' ? 1 : number('Suppliers', record, 'Exchange rate'),
      ]),
    );
    const rateOf = (supplier: string): number => rates.get(supplier.toLowerCase()) ?? 1;
    const stripPrices = new Map(
      [...book.sheet('Strips').rows.keys()].map((record) => [
        text('Strips', record, 'Strip'),
        (rateOf(text('Strips', record, 'Supplier')) * number('Strips', record, 'Roll price')) /
          (number('Strips', record, 'Roll length') * 1000),
      ]),
    );
    for (const record of book.sheet('Plate series').rows.keys()) {
      const n = (header: SeriesHeader): number => number('Plate series', record, header);
      const rate = rateOf(text('Plate series', record, 'Supplier'));
      const yes = (header: SeriesHeader): boolean => text('Plate series', record, header) === 'yes';
      this.series.set(text('Plate series', record, 'Series'), {
        leastThickness: n('Minimum thickness'),
        greatestThickness: n('Maximum thickness'),
        squarePulley: n('Minimum pulley square'),
        rated: [
          [15, n('Minimum pulley at 15')],
          [22, n('Minimum pulley at 22')],
          [30, n('Minimum pulley at 30')],
          [45, n('Minimum pulley at 45')],
          [60, n('Minimum pulley at 60')],
        ],
        rating: n('Tension rating'),
        pitch: n('Pitch'),
        plate: n('Plate width'),
        leastEdge: n('Minimum edge'),
        greatestEdge: n('Maximum edge'),
        holeBack: n('Hole setback'),
        holeGap: n('Hole spacing'),
        punch: n('Punch size'),
        plateLength: n('Plate length'),
        minimumRim: n('Minimum rim'),
        boltsPerPlate: n('Bolts per plate'),
        holesPerSide: n('Holes per side'),
        bolt: n('Bolt length'),
        changing: n('Long bolt above'),
        longerBolt: n('Long bolt length'),
        flame: yes('Flame resistant'),
        nonMagnetic: yes('Non-magnetic'),
        corrosion: yes('Corrosion resistant'),
        food: yes('Food grade'),
        platePrice: (rate * n('Pack price')) / n('Plates per pack'),
        boltPrice: (rate * n('Bolt pack price')) / n('Bolts per pack'),
        stripPrice: stripPrices.get(text('Plate series', record, 'Strip')) ?? Number.NaN,
      });
    }
    this.belts = [...book.sheet('Belts').rows.keys()].map((record): Belt => {
      const n = (header: BeltHeader): number => number('Belts', record, header);
      return {
        width: n('Width'),
        construction: text('Belts', record, 'Construction'),
        thickness: n('Thickness'),
        carcass: n('Carcass thickness'),
        topCover: n('Top cover'),
        permitted: n('Belt rating'),
        smallestPulley: n('Smallest pulley'),
        headPulley: n('Head pulley'),
        tailPulley: n('Tail pulley'),
        centres: n('Pulley centres'),
        lift: n('Lift'),
        speed: n('Speed'),
        power: n('Power'),
        capacity: n('Capacity'),
        wrap: n('Wrap angle'),
        friction: n('Drive friction'),
        tensionEntered: n('Known tension'),
        face: text('Belts', record, 'Drive pulley surface'),
        condition: text('Belts', record, 'Drive pulley condition'),
        starting: text('Belts', record, 'Starting'),
        group: text('Belts', record, 'Pulley group'),
        beltMass: n('Belt mass'),
        special: n('Special resistance'),
        takeUpKind: text('Belts', record, 'Take-up type'),
        drive: text('Belts', record, 'Drive place'),
        driveDistance: n('Drive distance'),
        secondDrive: text('Belts', record, 'Second drive place'),
        secondDistance: n('Second drive distance'),
        secondShare: n('Second drive share'),
        secondWrap: n('Second wrap angle'),
        secondFriction: n('Second drive friction'),
        takeUpDistance: n('Take-up distance'),
        takeUpWeight: n('Take-up weight'),
        ropeFalls: n('Take-up rope falls'),
        carryIdlers: n('Carry idler mass'),
        returnIdlers: n('Return idler mass'),
        route: text('Belts', record, 'Tension method'),
        lifePasses: n('Life in passes'),
        takeUp: n('Take-up travel'),
        replaces: text('Belts', record, 'Replaces'),
        replacedSkew: n('Replaced skew'),
        cutOut: n('Cut-out'),
        insert: n('Insert'),
        skew: n('Skew'),
        series: text('Belts', record, 'Plate series'),
        skive: n('Skive depth'),
        installed: n('Installed'),
        hoursPerYear: n('Hours per year'),
        life: n('Joint life'),
        service: text('Belts', record, 'Service'),
      };
    });
  }

  /** One belt worked out; a series it does not know is a programmer's error here. */
  joint(belt: Belt, named: Assumptions = this.named): Joint {
    const series = this.series.get(belt.series);
    if (series === undefined) throw new Error(`no series ${belt.series}`);
    return plainJoint(belt, series, named);
  }

  /** The whole fleet worked out. */
  joints(named: Assumptions = this.named): Joint[] {
    return this.belts.map((belt) => this.joint(belt, named));
  }

  /**
   * What the book and the plain loops do not agree on, to a relative 1e-9.
   *
   * Checks that the plain loops do not make are taken as they stand in the book; what follows from all is made anew.
   */
  disagreements(book: Workbook): string[] {
    return this.joints().flatMap((joint, record) => {
      const known = new Map<string, number | string>(Object.entries(joint));
      const all = checkColumns.map(
        ({ header }) => [header, String(known.get(header) ?? book.read('Belts', record, header))] as const,
      );
      return Object.entries({ ...joint, ...summary(Object.fromEntries(all)) }).flatMap(([header, plain]) => {
        const value = book.value({ sheet: 'Belts', record, column: columnOf(book, 'Belts', header) });
        const agree =
          typeof plain === 'string'
            ? value === plain
            : Number.isNaN(plain)
              ? typeof value !== 'number'
              : typeof value === 'number' && Math.abs(value - plain) <= 1e-9 * Math.abs(plain);
        return agree
          ? []
          : [`${placeWords(book, 'Belts', record, header)}: ${String(value)} in the book, ${plain} in plain loops`];
      });
    });
  }
}
