import type { BeltHeader } from '../../sheets/index.ts';
import { assumed } from '../records/assumed.ts';
import { Belt, type Missing } from '../records/belt.ts';
import { type ChoiceTerms, type ChosenBelt, type LeftOut, ofChosenBelts, type Scope } from '../records/chosen-belts.ts';
import { textIn } from '../formula/values.ts';
import { isoDate } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { beltNeeds, type ChosenJoints, type Need } from './search/order-list.ts';
import type { Items } from './items.ts';

/** The joints of a book that parts are ordered for, and what each takes. */

/** Pieces of one length that are cut from rolls. */
interface CutPieces {
  readonly item: Need['item'];
  readonly belt: string;
  /** In long lengths. */
  readonly length: number;
  readonly quantity: number;
}

/** The joints of one belt, with what they take. */
interface BeltJoints {
  readonly record: number;
  readonly belt: string;
  readonly area: string;
  /** Of several, or of the only one; not given where the book names none. */
  readonly site?: string | undefined;
  /**
   * When they are made, as year-month: the month they are due, or that of the review date when they are overdue or no
   * day is known.
   */
  readonly month: string;
  /** The day they are due, where it is known. */
  readonly due: number | undefined;
  readonly joints: number;
  /** Of one joint. */
  readonly parts: readonly Pick<Need, 'item' | 'quantity'>[];
  /** Of all of them, and of the belt's insert. */
  readonly needs: readonly Need[];
  readonly pieces: readonly CutPieces[];
  /** Checks that could not be made: parts are ordered all the same. */
  readonly unknown: readonly string[];
  /** Its joint fails a check. */
  readonly failing: boolean;
}

export interface FleetJoints {
  readonly belts: readonly BeltJoints[];
  readonly leftOut: readonly LeftOut[];
}

/** What consumables one joint takes. */
export interface PerJoint {
  readonly name: string;
  readonly quantity: number;
}

/** What a belt says of its joints. */
interface JointFigures {
  readonly series: string;
  /** As many as the belt says; undefined when it says nothing. */
  readonly given: number | undefined;
  readonly plates: number;
  readonly bolts: number;
  readonly boltLength: number;
  readonly stripName: string;
  /** Pieces of strip in a joint; 0 where it takes none. */
  readonly strips: number;
  /** Of strip; 0 where a joint takes none. */
  readonly perPiece: number;
  /** In long lengths; 0 for none. */
  readonly insert: number;
}

/** A joint that lasts a day would be replaced this often in a year and more: nobody orders for that. */
const mostReplacements = 400;

class JointReader {
  readonly #book: Workbook;
  readonly #items: Items;
  readonly #consumables: readonly PerJoint[];
  readonly #assumptions: Readonly<Record<'life' | 'perLong' | 'today' | 'daysPerYear', number>>;

  constructor(book: Workbook, items: Items, consumables: readonly PerJoint[]) {
    this.#book = book;
    this.#items = items;
    this.#consumables = consumables;
    this.#assumptions = {
      life: assumed(book, 'PunchLife'),
      perLong: assumed(book, 'ShortPerLong'),
      today: assumed(book, 'ReviewDate'),
      daysPerYear: assumed(book, 'DaysPerYear'),
    };
  }

  /** What is needed of a belt's row, or the first of it that is missing. */
  #figures(belt: Belt): JointFigures | Missing {
    const missing: Missing[] = [];
    const need = (header: BeltHeader): number => {
      const value = belt.needed(header);
      if (typeof value === 'number') return value;
      missing.push(value);
      return 0;
    };
    const series = belt.text('Plate series');
    if (series === '') return { column: 'Plate series', reason: 'no plate series is entered' };
    const strips = need('Strips');
    const figures: JointFigures = {
      series,
      given: belt.given('Joints'),
      bolts: need('Bolts'),
      boltLength: need('Bolt length'),
      plates: need('Plates'),
      stripName: textIn(belt.ofSeries('Strip')),
      strips,
      perPiece: strips === 0 ? 0 : need('Strip length each'),
      insert: belt.given('Insert') === undefined ? 0 : need('Insert to order'),
    };
    const [first] = missing;
    if (first !== undefined) return first;
    return figures.given === undefined && figures.insert === 0
      ? { column: 'Joints', reason: 'its number of joints is not known' }
      : figures;
  }

  /** The punch that a joint wears, as a share of its life. */
  #punched(belt: Belt, plates: number): Pick<Need, 'item' | 'quantity'>[] {
    const [perSide, size] = [belt.ofSeries('Holes per side'), belt.ofSeries('Punch size')];
    const holes = typeof perSide === 'number' ? 2 * perSide * plates : 0;
    return typeof size !== 'number' || !(size > 0) || holes === 0
      ? []
      : [{ item: this.#items.item('punch', '', size), quantity: holes / this.#assumptions.life }];
  }

  /** Pieces of strip for so many joints. */
  #stripPieces(belt: string, { perPiece, strips, stripName }: JointFigures, joints: number): CutPieces[] {
    const { perLong } = this.#assumptions;
    return perPiece === 0 || joints === 0
      ? []
      : [{ item: this.#items.item('strip', stripName), belt, length: perPiece / perLong, quantity: strips * joints }];
  }

  /** The belt that is put in; one piece. */
  #insertPiece(belt: Belt, name: string, insert: number): CutPieces[] {
    if (insert === 0) return [];
    const construction = belt.text('Construction');
    const item = this.#items.item('belt', construction === '' ? 'belt' : construction, belt.number('Width'));
    return [{ item, belt: name, length: insert, quantity: 1 }];
  }

  /** When joints are made that are due on a day. */
  monthOf(due: number | undefined): string {
    return isoDate(Math.max(this.#assumptions.today, Math.floor(due ?? 0))).slice(0, 7);
  }

  /** Days from one replacement of a belt's joints to the next; undefined when they are not known. */
  #lifeInDays(record: number): number | undefined {
    const belt = new Belt(this.#book, record);
    const [life, hoursPerYear] = [belt.number('Life in hours'), belt.number('Hours per year')];
    if (life === undefined || hoursPerYear === undefined || !(life > 0) || !(hoursPerYear > 0)) return undefined;
    return Math.max(1, (life / hoursPerYear) * this.#assumptions.daysPerYear);
  }

  /** The joints that replace a belt's next ones up to a day, as often as their life ends; without the belt's insert. */
  later(first: BeltJoints, until: number): BeltJoints[] {
    const [days, { joints, parts, due }] = [this.#lifeInDays(first.record), first];
    if (due === undefined || days === undefined) return [];
    const begun = Math.max(due, this.#assumptions.today);
    const number = Math.min(mostReplacements, Math.max(0, Math.floor((until - begun) / days)));
    return Array.from({ length: number }, (_, place): BeltJoints => {
      const day = Math.floor(begun + (place + 1) * days);
      const when = { month: this.monthOf(day), due: day };
      return {
        ...first,
        ...when,
        needs: parts.map(({ item, quantity }) => ({
          item,
          belt: first.belt,
          area: first.area,
          ...when,
          quantity: quantity * joints,
        })),
        pieces: first.pieces.filter(({ item }) => item.kind !== 'belt'),
      };
    });
  }

  /** The joints of a belt, or what keeps them from being ordered. */
  of({ record, name, belt, due, unknown, failing }: ChosenBelt): BeltJoints | Missing {
    const figures = this.#figures(belt);
    if ('reason' in figures) return figures;
    const { series, given, plates, bolts, boltLength, insert } = figures;
    // An insert is closed by a joint at either end.
    const joints = Math.max(given ?? 0, insert > 0 ? 2 : 0);
    const place = {
      belt: name,
      area: belt.text('Area'),
      month: this.monthOf(due),
      ...(due === undefined ? {} : { due }),
    };
    const [strip] = this.#stripPieces(name, figures, 1);
    const one: ChosenJoints = {
      ...place,
      joints: 1,
      series: this.#items.item('plates', series).name,
      plates,
      bolts,
      boltLength: this.#items.item('bolts', series, boltLength).length ?? boltLength,
      ...(strip === undefined
        ? {}
        : {
            strip: { name: strip.item.name, length: (figures.strips * figures.perPiece) / this.#assumptions.perLong },
          }),
      consumables: this.#consumables,
    };
    const punched = this.#punched(belt, plates).map((part): Need => ({ ...place, ...part }));
    const inserted = this.#insertPiece(belt, name, insert);
    return {
      ...place,
      record,
      due,
      joints,
      parts: [...beltNeeds(one), ...punched].map(({ item, quantity }) => ({ item, quantity })),
      needs: [
        ...beltNeeds({ ...one, joints }),
        ...punched
          .map((part) => ({ ...part, quantity: part.quantity * joints }))
          .filter(({ quantity }) => quantity > 0),
        ...inserted.map(({ item, length }): Need => ({ ...place, item, quantity: length })),
      ],
      pieces: [...this.#stripPieces(name, figures, joints), ...inserted],
      unknown,
      failing,
    };
  }
}

/**
 * The joints of a scope with their parts, belt by belt in the order of the book; of a period every replacement in it,
 * one after the other.
 */
export function fleetJoints(
  book: Workbook,
  items: Items,
  consumables: readonly PerJoint[],
  scope: Scope,
  terms: ChoiceTerms = {},
): FleetJoints {
  const reader = new JointReader(book, items, consumables);
  const { made, leftOut } = ofChosenBelts(book, scope, terms, (chosen) => reader.of(chosen));
  const belts = scope.which === 'due' ? made.flatMap((first) => [first, ...reader.later(first, scope.until)]) : made;
  return { belts, leftOut };
}
