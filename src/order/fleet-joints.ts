import type { BeltHeader } from '../../sheets/index.ts';
import { assumed } from '../records/assumed.ts';
import type { Missing } from '../records/belt.ts';
import { type ChoiceTerms, type ChosenBelt, type LeftOut, ofChosenBelts, type Scope } from '../records/chosen-belts.ts';
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

class JointReader {
  readonly #items: Items;
  readonly #consumables: readonly PerJoint[];
  readonly #assumptions: Readonly<Record<'life' | 'perLong' | 'today', number>>;

  constructor(book: Workbook, items: Items, consumables: readonly PerJoint[]) {
    this.#items = items;
    this.#consumables = consumables;
    this.#assumptions = {
      life: assumed(book, 'PunchLife'),
      perLong: assumed(book, 'ShortPerLong'),
      today: assumed(book, 'ReviewDate'),
    };
  }

  /** The joints of a belt, or what keeps them from being ordered. */
  of({ record, name, belt, due, unknown }: ChosenBelt): BeltJoints | Missing {
    const missing: Missing[] = [];
    const need = (header: BeltHeader): number => {
      const value = belt.needed(header);
      if (typeof value === 'number') return value;
      missing.push(value);
      return 0;
    };
    const series = belt.text('Plate series');
    if (series === '') return { column: 'Plate series', reason: 'it has no plate series' };
    const given = belt.given('Joints');
    const [bolts, boltLength] = [need('Bolts'), need('Bolt length')];
    const plates = need('Plates');
    const stripName = String(belt.ofSeries('Strip') ?? '');
    const strips = need('Strips');
    const perPiece = strips === 0 ? 0 : need('Strip per piece');
    const insert = belt.given('Insert') === undefined ? 0 : need('Insert to order');
    const holesPerSide = belt.ofSeries('Holes per side');
    const punchSize = belt.ofSeries('Punch size');
    const [first] = missing;
    if (first !== undefined) return first;
    if (given === undefined && insert === 0)
      return { column: 'Joints', reason: 'the number of its joints is not known' };
    // An insert is closed by a joint at either end.
    const joints = Math.max(given ?? 0, insert > 0 ? 2 : 0);
    const area = belt.text('Area');
    const month = isoDate(Math.max(this.#assumptions.today, Math.floor(due ?? 0))).slice(0, 7);
    const plated = this.#items.item('plates', series);
    const included = belt.ofSeries('Bolt pack price') === 0;
    const strip = perPiece === 0 ? undefined : this.#items.item('strip', stripName);
    const punch = typeof punchSize === 'number' && punchSize > 0 ? this.#items.item('punch', '', punchSize) : undefined;
    const holes = typeof holesPerSide === 'number' ? 2 * holesPerSide * plates : 0;
    const chosen: ChosenJoints = {
      belt: name,
      area,
      month,
      joints: 1,
      series: plated.name,
      plates,
      bolts: included ? 0 : bolts,
      boltLength: this.#items.item('bolts', series, boltLength).length ?? boltLength,
      ...(strip === undefined
        ? {}
        : { strip: { name: strip.name, length: (strips * perPiece) / this.#assumptions.perLong } }),
      consumables: this.#consumables,
    };
    const punched: Need[] =
      punch === undefined || holes === 0
        ? []
        : [{ item: punch, belt: name, area, month, quantity: holes / this.#assumptions.life }];
    const each = [...beltNeeds(chosen), ...punched];
    const all = [
      ...beltNeeds({ ...chosen, joints }),
      ...punched.map((one) => ({ ...one, quantity: one.quantity * joints })).filter(({ quantity }) => quantity > 0),
    ];
    const beltItem =
      insert === 0
        ? undefined
        : this.#items.item(
            'belt',
            belt.text('Construction') === '' ? 'belt' : belt.text('Construction'),
            belt.number('Width'),
          );
    return {
      record,
      belt: name,
      area,
      month,
      due,
      joints,
      parts: each.map(({ item, quantity }) => ({ item, quantity })),
      needs: [
        ...all,
        ...(beltItem === undefined ? [] : [{ item: beltItem, belt: name, area, month, quantity: insert }]),
      ],
      pieces: [
        ...(strip === undefined || joints === 0
          ? []
          : [{ item: strip, belt: name, length: perPiece / this.#assumptions.perLong, quantity: strips * joints }]),
        ...(beltItem === undefined ? [] : [{ item: beltItem, belt: name, length: insert, quantity: 1 }]),
      ],
      unknown,
    };
  }
}

/** The joints of a scope with their parts, belt by belt in the order of the book. */
export function fleetJoints(
  book: Workbook,
  items: Items,
  consumables: readonly PerJoint[],
  scope: Scope,
  terms: ChoiceTerms = {},
): FleetJoints {
  const reader = new JointReader(book, items, consumables);
  const { made, leftOut } = ofChosenBelts(book, scope, terms, (chosen) => reader.of(chosen));
  return { belts: made, leftOut };
}
