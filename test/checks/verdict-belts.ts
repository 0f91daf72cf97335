import type { Content } from '../../src/formula/values.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { bookOf, type Cells, heron, plover, soundBelt } from '../workbook/books.ts';

/**
 * Random belts, series and pulleys whose cells hold what is allowed there or nothing: wide enough that every check says
 * all that it can say, and every method and default is met.
 */

type Draw = () => Content;

class Chance {
  readonly #next: () => number;

  constructor(seed: number) {
    this.#next = randomNumbers(seed);
  }

  is(share: number): boolean {
    return this.#next() < share;
  }

  of<Item>(items: readonly Item[]): Item {
    const item = items[Math.floor(this.#next() * items.length)];
    if (item === undefined) throw new Error('nothing to choose from');
    return item;
  }

  between(least: number, most: number, digits = 1): number {
    const whole = 10 ** digits;
    return Math.round((least + this.#next() * (most - least)) * whole) / whole;
  }

  /** A number near one, so that limits are met from both sides. */
  near(middle: number, share: number, digits = 1): number {
    return this.between(middle * (1 - share), middle * (1 + share), digits);
  }
}

const constructions = [
  'EP 400/3 4+2',
  'EP 400/3 4+2',
  'EP 315/2 3+1.5',
  '1000 EP 630/4 6/2 Y',
  'EP 1000/5 8+3',
  'NN 500/4',
  'NN 250/2 3+1',
  'P 250/2 3+2',
  'E 200/2',
  'B 200',
  'B 250/4 3+2',
  'St 1000 4+2',
  'St1250 6:4',
];

/**
 * Drives, take-up and idlers as few lists give them: mostly what goes together, now and then what does not, or with a
 * gap.
 */
function drivesOf(chance: Chance): Cells {
  const distances = [12, 40, 75, 75, 130, 400];
  const distance = (place: Content): Content =>
    chance.is(place === 'return run' ? 0.95 : 0.05) ? chance.of(distances) : null;
  const place = (): Content => chance.of(['head', 'tail', 'return run', 'return run']);
  const seldom = (share: number, draw: Draw): Content => (chance.is(share) ? draw() : null);
  const first = seldom(0.35, place);
  const second = seldom(0.25, place);
  const ofSecond = (draw: Draw): Content => seldom(second === null ? 0.01 : 0.95, draw);
  return {
    'Drive place': first,
    'Drive distance': distance(first),
    'Second drive place': second,
    'Second drive distance': second === null ? seldom(0.01, () => 40) : distance(second),
    'Second drive share': ofSecond(() => chance.of([0.33, 0.5, chance.between(0.05, 0.95, 2)])),
    'Second wrap angle': ofSecond(() => chance.between(150, 420, 0)),
    'Second drive friction': seldom(second === null ? 0.01 : 0.4, () => chance.between(0.15, 0.45, 2)),
    'Take-up distance': seldom(0.3, () => chance.of([0, ...distances])),
    'Take-up weight': seldom(0.35, () => chance.of([chance.between(200, 4000, 0), chance.between(2000, 20_000, 0)])),
    'Take-up rope falls': seldom(0.2, () => chance.of([1, 2, 4])),
    'Carry idler mass': seldom(0.2, () => chance.between(0, 40)),
    'Return idler mass': seldom(0.2, () => chance.between(0, 16)),
  };
}

/** Inputs that most lists give, with a chance of a gap; the others mostly empty. */
function beltOf(chance: Chance, name: string, series: readonly string[]): Cells {
  const given: Readonly<Record<string, Draw>> = {
    Width: () => chance.of([300, 400, 650, 800, 1000, 1200, 1600]),
    Construction: () => chance.of(constructions),
    Thickness: () => chance.between(5, 19),
    'Smallest pulley': () => chance.of([160, 200, 250, 315, 400, 500, 630, 800, 1000, 1400]),
    'Head pulley': () => chance.of([400, 500, 630, 800]),
    'Tail pulley': () => chance.of([315, 400, 500]),
    'Pulley centres': () => chance.of([chance.between(20, 79), chance.between(80, 300), chance.between(80, 1500)]),
    Lift: () => chance.of([chance.between(-4, 10), chance.between(-30, 40)]),
    Speed: () => chance.between(0.5, 6),
    'Take-up travel': () => chance.of([chance.between(0, 600, 0), chance.between(0, 6000, 0)]),
    Skew: () => chance.of([0, 0, 15, 22, 30, 45, 45, 60, chance.between(0, 60)]),
    'Plate series': () => chance.of(series),
    'Skive depth': () => chance.of([0, 0, 0, 1, 1.5, 2.5, 3, 4.2]),
    Installed: () => chance.between(42_000, 46_360, 0),
    'Hours per year': () => chance.between(500, 8000, 0),
    Service: () => chance.of(['none', 'none', 'none', 'underground', 'corrosive', 'food, magnet', 'Metal detector']),
    'Wrap angle': () => chance.between(150, 420, 0),
  };
  const seldom: Readonly<Record<string, readonly [share: number, draw: Draw]>> = {
    'Drive friction': [0.6, () => chance.between(0.15, 0.45, 2)],
    'Carcass thickness': [0.4, () => chance.between(2, 7)],
    'Top cover': [0.4, () => chance.between(1, 8)],
    'Belt rating': [0.4, () => chance.between(15, 110)],
    Power: [0.5, () => chance.between(2, 160)],
    Capacity: [0.5, () => chance.between(0, 1200, 0)],
    'Known tension': [0.3, () => chance.between(3, 70)],
    'Joint life': [0.8, () => chance.between(4000, 40_000, 0)],
    'Life in passes': [0.3, () => chance.between(5e4, 4e6, 0)],
    'Drive pulley surface': [0.4, () => chance.of(['bare steel', 'grooved rubber', 'ceramic'])],
    'Drive pulley condition': [0.6, () => chance.of(['dry', 'wet', 'dirty'])],
    'Take-up type': [0.4, () => chance.of(['automatic', 'screw'])],
    Starting: [0.4, () => chance.of(['direct on line', 'soft start', 'fluid coupling', 'frequency converter'])],
    'Pulley group': [0.3, () => chance.of(['A', 'B', 'C'])],
    'Special resistance': [0.1, () => chance.between(0, 4000, 0)],
    'Tension method': [0.15, () => chance.of(['entered', 'resistances', 'power', 'belt rating'])],
    'Belt mass': [0.2, () => chance.between(4, 40)],
    Replaces: [0.7, () => chance.of(['new belt', 'square joint', 'same skew', 'other skew'])],
    'Replaced skew': [0.3, () => chance.of([0, 22, 30, 45, 60])],
    'Cut-out': [0.3, () => chance.between(0, 500, 0)],
    Insert: [0.1, () => chance.between(1, 20)],
    'Trough angle': [0.4, () => chance.of([0, 20, 30, 35, 45])],
    'Surcharge angle': [0.5, () => chance.of([5, 10, 20, 25])],
    'Bulk density': [0.5, () => chance.between(500, 2000, 0)],
    'Maximum slope': [0.3, () => chance.of([5, 12, 18])],
    'Material temperature': [0.3, () => chance.between(10, 120, 0)],
    'Maximum temperature': [0.3, () => chance.of([60, 80, 100])],
    'Scraper clearance': [0.3, () => chance.between(0, 6)],
  };
  return {
    Belt: name,
    Area: 'Quay',
    Joints: 2,
    ...Object.fromEntries(
      Object.entries(given).map(([header, draw]) => {
        const value = draw();
        return [header, chance.is(0.03) ? null : value];
      }),
    ),
    ...Object.fromEntries(
      Object.entries(seldom).flatMap(([header, [share, draw]]) => (chance.is(share) ? [[header, draw()]] : [])),
    ),
    ...(chance.is(0.6) ? drivesOf(chance) : {}),
  };
}

/** A series after one of the sound ones; now and then without a figure, or with one that can't be. */
function seriesOf(chance: Chance, name: string): Cells {
  const sound = chance.of([plover, heron]);
  const square = Number(sound['Minimum pulley square']);
  const rating = (skew: number): Content =>
    chance.is(0.2) ? chance.between(square * (skew > 30 ? 0.6 : 0.8), square, 0) : null;
  const flag = (): Content => chance.of(['yes', 'yes', 'no', null]);
  const holes = chance.of([1, 1, 2]);
  const changed: Cells = {
    ...sound,
    Series: name,
    'Minimum pulley at 15': rating(15),
    'Minimum pulley at 22': rating(22),
    'Minimum pulley at 30': rating(30),
    'Minimum pulley at 45': chance.of([sound['Minimum pulley at 45'] ?? null, rating(45)]),
    'Minimum pulley at 60': rating(60),
    'Tension rating': chance.near(Number(sound['Tension rating']), 0.5),
    'Maximum edge': chance.near(60, 0.5),
    'Holes per side': holes,
    'Bolts per plate': 2 * holes,
    'Hole spacing': holes > 1 ? chance.of([12, 15]) : chance.of([0, null]),
    'Plate length': chance.of([41, 44, null]),
    'Minimum rim': chance.of([null, 8, 14]),
    'Flame resistant': flag(),
    'Non-magnetic': flag(),
    'Corrosion resistant': flag(),
    'Food grade': flag(),
    'Maximum speed': chance.of([null, 2.5, 4]),
    'Maximum temperature': chance.of([null, 70, 90]),
    'Maximum trough angle': chance.of([null, 20, 30, 35]),
    'Plate height': chance.of([null, 3, 5]),
    'Minimum plates': chance.of([null, 6, 20]),
  };
  if (chance.is(0.6)) return changed;
  const spoilt: readonly Cells[] = [
    { Pitch: 29 },
    { 'Holes per side': 2, 'Hole spacing': 5, 'Bolts per plate': 4 },
    { 'Holes per side': 2, 'Hole spacing': 40, 'Bolts per plate': 4 },
    { 'Holes per side': 2, 'Hole spacing': 0, 'Bolts per plate': 4 },
    { 'Hole setback': 3 },
    { 'Plate length': 30 },
    { 'Minimum edge': 3 },
    { 'Bolts per plate': 1 },
    { 'Long bolt length': 30 },
    { 'Long bolt above': 20 },
    { 'Maximum thickness': 5 },
    { 'Maximum edge': 20 },
    { 'Minimum pulley at 30': square + 10 },
    { 'Punch size': null },
    { 'Tension rating': null },
    { 'Minimum pulley square': null },
    { 'Hole setback': null },
    { 'Maximum thickness': null },
    { 'Minimum edge': null },
  ];
  return { ...changed, ...chance.of(spoilt) };
}

/** Pulleys at entered tensions, or at the highest of the loop: where they stand along it is the tension model's. */
const pulleyOf = (chance: Chance, belt: string, place: number): Cells => {
  const known = chance.is(0.6);
  return {
    Belt: belt,
    Pulley: `pulley ${place}`,
    'Pulley type': chance.of(['head', 'drive']),
    Diameter: chance.is(0.03) ? null : chance.of([250, 315, 400, 500, 630, 800]),
    'Belt side': chance.of([null, 'pulley side', 'carrying side']),
    Group: chance.of([null, 'A', 'B', 'C']),
    'Local tension': known ? chance.between(3, 80) : null,
  };
};

/** A book of so many random belts, each seed its own. */
export function verdictBook(
  seed: number,
  count: number,
  change: (cells: Cells) => readonly Cells[] = (cells) => [cells],
): BookState {
  const chance = new Chance(seed);
  const series = Array.from({ length: Math.max(8, Math.round(count / 8)) }, (_, index) =>
    seriesOf(chance, `P${index}`),
  );
  const names = series.map(({ Series }) => String(Series));
  const belts = Array.from({ length: count }, (_, index) => ({
    // One in four is a sound belt but for what is drawn for it, so that verdicts are decided by single checks.
    ...(chance.is(0.25) ? { ...soundBelt, 'Plate series': chance.of(names) } : {}),
    ...beltOf(chance, `B${index}`, [...names, ...(chance.is(0.05) ? ['none such'] : [])]),
  }));
  const listed = belts.map(() => (chance.is(0.15) ? chance.of([1, 2, 3]) : 0));
  const variants = belts.map((cells) => change(cells));
  return bookOf({
    named: {
      // In some books nothing can be told: without the margin no check passes.
      TightMargin: seed % 10 === 9 ? null : chance.of([0.05, 0.2, 0.2]),
      CornerDistance: chance.of([0, 4, 10]),
      RimDistance: chance.of([6, 9]),
      ReverseFactor: chance.of([1, 1.25]),
      MethodMargin: chance.of([0.3, 0.1]),
      StartFactor: chance.of([1.3, 1.6]),
      TakeUpShare: chance.of([1, 2]),
      DriveEfficiency: chance.of([1, 0.9]),
      CarryIdlers: chance.of([0, 0, 14]),
      ReturnIdlers: chance.of([0, 0, 6]),
    },
    belts: variants.flat(),
    series,
    pulleys: variants.flatMap((some, index) => {
      const first = Array.from({ length: listed[index] ?? 0 }, (_, place) => pulleyOf(chance, '', place));
      return some.flatMap(({ Belt }) => first.map((pulley) => ({ ...pulley, Belt: Belt ?? null })));
    }),
  });
}
