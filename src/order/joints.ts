import { isFault } from '../formula/values.ts';
import { Belt, verdictOf } from '../checks/belt.ts';
import { isEmptyRecord, recordName } from '../checks/input-issues.ts';
import { issueAt } from '../checks/cell-issue.ts';
import { listed } from '../checks/words.ts';
import { belts, checkColumns } from '../../sheets/belts.ts';
import { plateSeries } from '../../sheets/plate-series.ts';
import { isoDate } from '../units/dates.ts';
import { cellName } from '../workbook/sheet-plan.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { beltNeeds, type ChosenJoints, type Need } from '../buying/order-list.ts';
import { assumed } from './assumed.ts';
import type { Items } from './items.ts';

/** The joints of a book that parts are ordered for, and what each takes. */

/** Which joints: of all belts, of belts by record, or those that are due up to a day (a serial number), overdue ones included. */
export type Scope =
  | { readonly which: 'all' }
  | { readonly which: 'belts'; readonly records: readonly number[] }
  | { readonly which: 'due'; readonly until: number };

export interface JointTerms {
  /** Takes belts too whose joint fails a check; else they are told and left out. */
  readonly failing?: boolean;
}

/** Pieces of one length that are cut from rolls. */
export interface CutPieces {
  readonly item: Need['item'];
  readonly belt: string;
  /** In long lengths. */
  readonly length: number;
  readonly quantity: number;
}

/** The joints of one belt, with what they take. */
export interface BeltJoints {
  readonly record: number;
  readonly belt: string;
  readonly area: string;
  /** When they are made, as year-month: the month they are due, or that of the review date when they are overdue or no day is known. */
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

/** A belt that nothing is ordered for, and why. */
export interface LeftOut {
  readonly record: number;
  readonly belt: string;
  readonly reason: string;
  readonly column: string;
  readonly cell: string;
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

/** The check of a joint's age: it fails when the joint is due, which is why parts are ordered. */
const age = checkColumns.find(({ word }) => word === 'age');
const judged = checkColumns.filter((check) => check !== age);

interface Missing {
  readonly column: string;
  readonly reason: string;
}

class JointReader {
  readonly #book: Workbook;
  readonly #items: Items;
  readonly #consumables: readonly PerJoint[];
  readonly #assumptions: Readonly<Record<'pieces' | 'life' | 'perLong' | 'today', number>>;

  constructor(book: Workbook, items: Items, consumables: readonly PerJoint[]) {
    this.#book = book;
    this.#items = items;
    this.#consumables = consumables;
    this.#assumptions = {
      pieces: assumed(book, 'StripPieces'), life: assumed(book, 'PunchLife'), perLong: assumed(book, 'ShortPerLong'), today: assumed(book, 'ReviewDate'),
    };
  }

  /** The joints of a belt, or what keeps them from being ordered. */
  of(record: number, terms: JointTerms): BeltJoints | Missing {
    const belt = new Belt(this.#book, record);
    const missing: Missing[] = [];
    const need = (header: string): number => {
      const value = belt.value(header);
      if (typeof value === 'number' && value >= 0) return value;
      missing.push({ column: header, reason: `${header} is not known${isFault(value) && value.message !== '' ? `: ${value.message}` : ''}` });
      return 0;
    };
    const verdicts = judged.map(({ header, word }) => ({ word, header, verdict: verdictOf(belt.value(header)) }));
    const failing = verdicts.filter(({ verdict }) => verdict === 'fails');
    if (failing.length > 0 && terms.failing !== true) return { column: failing[0]?.header ?? '', reason: `its joint fails: ${listed(failing.map(({ word }) => word))}` };
    const series = belt.text('Plate series');
    if (series === '') return { column: 'Plate series', reason: 'it has no plate series' };
    const given = this.#given(record, 'Joints');
    const [bolts, boltLength] = [need('Bolts'), need('Bolt length')];
    const plates = need('Plates');
    const stripName = String(belt.ofSeries('Strip') ?? '');
    const perPiece = stripName === '' || this.#assumptions.pieces === 0 ? 0 : need('Strip per piece');
    const insert = this.#given(record, 'Insert') === undefined ? 0 : need('Insert to order');
    const holesPerSide = belt.ofSeries('Holes per side');
    const punchSize = belt.ofSeries('Punch size');
    const [first] = missing;
    if (first !== undefined) return first;
    if (given === undefined && insert === 0) return { column: 'Joints', reason: 'the number of its joints is not known' };
    // An insert is closed by a joint at either end.
    const joints = Math.max(given ?? 0, insert > 0 ? 2 : 0);
    const name = recordName(this.#book, belts.name, record);
    const area = belt.text('Area');
    const due = belt.number('Due');
    const month = isoDate(Math.max(this.#assumptions.today, Math.floor(due ?? 0))).slice(0, 7);
    const plated = this.#items.item('plates', series);
    const included = belt.ofSeries('Bolt pack price') === 0;
    const strip = perPiece === 0 ? undefined : this.#items.item('strip', stripName);
    const punch = typeof punchSize === 'number' && punchSize > 0 ? this.#items.item('punch', '', punchSize) : undefined;
    const holes = typeof holesPerSide === 'number' ? 2 * holesPerSide * plates : 0;
    const chosen: ChosenJoints = {
      belt: name, area, month, joints: 1, series: plated.name, plates,
      bolts: included ? 0 : bolts, boltLength: this.#items.item('bolts', series, boltLength).length ?? boltLength,
      ...(strip === undefined ? {} : { strip: { name: strip.name, length: (this.#assumptions.pieces * perPiece) / this.#assumptions.perLong } }),
      consumables: this.#consumables,
    };
    const punched: Need[] = punch === undefined || holes === 0 ? [] : [{ item: punch, belt: name, area, month, quantity: holes / this.#assumptions.life }];
    const each = [...beltNeeds(chosen), ...punched];
    const all = [...beltNeeds({ ...chosen, joints }), ...punched.map((one) => ({ ...one, quantity: one.quantity * joints })).filter(({ quantity }) => quantity > 0)];
    const beltItem = insert === 0 ? undefined : this.#items.item('belt', belt.text('Construction') === '' ? 'belt' : belt.text('Construction'), belt.number('Width'));
    return {
      record, belt: name, area, month, due, joints,
      parts: each.map(({ item, quantity }) => ({ item, quantity })),
      needs: [...all, ...(beltItem === undefined ? [] : [{ item: beltItem, belt: name, area, month, quantity: insert }])],
      pieces: [
        ...(strip === undefined || joints === 0 ? [] : [{ item: strip, belt: name, length: perPiece / this.#assumptions.perLong, quantity: this.#assumptions.pieces * joints }]),
        ...(beltItem === undefined ? [] : [{ item: beltItem, belt: name, length: insert, quantity: 1 }]),
      ],
      unknown: verdicts.filter(({ verdict }) => verdict === 'not known').map(({ word }) => word),
    };
  }

  /** An input that is given and allowed. */
  #given(record: number, header: string): number | undefined {
    const place = { sheet: belts.name, record, column: this.#book.column(belts.name, header) };
    const value = this.#book.value(place);
    return typeof value === 'number' && issueAt(this.#book, place) === undefined ? value : undefined;
  }
}

const within = (scope: Scope, record: number, due: number | undefined): boolean =>
  scope.which === 'all' || (scope.which === 'belts' ? scope.records.includes(record) : due !== undefined && due <= scope.until);

/**
 * The joints of a scope with their parts, belt by belt in the order of the book.
 *
 * A belt that fails a check other than that of its age is told and left out, unless asked for: its joint must be changed
 * first. So is one whose parts cannot be counted, and, for a period, one that has no day when it is due.
 */
export function fleetJoints(book: Workbook, items: Items, consumables: readonly PerJoint[], scope: Scope, terms: JointTerms = {}): FleetJoints {
  const reader = new JointReader(book, items, consumables);
  const found: BeltJoints[] = [];
  const leftOut: LeftOut[] = [];
  const due = book.column(belts.name, 'Due');
  for (const [record, { cells }] of book.sheet(belts.name).rows.entries()) {
    if (isEmptyRecord(cells)) continue;
    const out = ({ column, reason }: Missing): void => {
      leftOut.push({ record, belt: recordName(book, belts.name, record), reason, column, cell: cellName(belts.name, record, book.column(belts.name, column)) });
    };
    const day = book.value({ sheet: belts.name, record, column: due });
    if (scope.which === 'due' && typeof day !== 'number') {
      out({ column: 'Due', reason: 'the day when its joint is due is not known' });
      continue;
    }
    if (!within(scope, record, typeof day === 'number' ? day : undefined)) continue;
    const joints = reader.of(record, terms);
    if ('reason' in joints) out(joints);
    else found.push(joints);
  }
  return { belts: found, leftOut };
}

/** Plate series of the book by record, for what is told of them. */
export const seriesRecord = (book: Workbook, series: string): number =>
  book.sheet(plateSeries.name).rows.findIndex((_, record) => String(book.read(plateSeries.name, record, plateSeries.key)).toLowerCase() === series.toLowerCase());
