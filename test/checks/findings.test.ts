import { verdictOf } from '../../src/functions/checks.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import type { Finding } from '../../src/records/finding.ts';
import { capital } from '../../src/sheet/words.ts';
import { findings, recordFindings, verdictCounts } from '../../src/checks/findings.ts';
import { cellArea } from '../../src/formula/references.ts';
import type { UnitSystem } from '../../src/units/quantities.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { belts } from '../../sheets/belts/index.ts';
import { columnOf, bookOf, heron, letters, plover, randomBooks, soundBelt, type Cells } from '../workbook/books.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** What findings say: numbers, causes and cures, each tried out. */

const bookWith = (
  changed: Cells,
  series: readonly Cells[] = [plover, heron],
  named: Cells = {},
  units: UnitSystem = 'metric',
): Workbook => new Workbook(bookOf({ belts: [{ ...soundBelt, ...changed }], series, named }, units));

const only = (book: Workbook, check: string): Finding => {
  const found = recordFindings(book, 0).filter((finding) => finding.check === check);
  expect(found).toHaveLength(1);
  const [finding] = found;
  if (finding === undefined) throw new Error(`no finding of the ${check} check`);
  return finding;
};

/** The belt's verdict after an input is set as a cure says. */
function verdictAfter(
  book: Workbook,
  header: BeltHeader,
  content: number | string,
  column: BeltHeader = 'Verdict',
): unknown {
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', header), content }]);
  const verdict = book.read('Belts', 0, column);
  book.undo();
  return verdict;
}

test('a belt on which everything fits has no finding', () => {
  expect(findings(bookWith({}))).toEqual([]);
  expect(verdictCounts(bookWith({}))).toEqual({ fits: 1, tight: 0, fails: 0, 'not known': 0 });
});

test('an empty line is no belt', () => {
  const book = new Workbook(bookOf({ belts: [soundBelt, {}, {}] }));
  expect(findings(book)).toEqual([]);
  expect(verdictCounts(book)).toEqual({ fits: 1, tight: 0, fails: 0, 'not known': 0 });
});

describe('where a planner is sent to', () => {
  const withoutThickness = { ...plover, 'Minimum thickness': null };

  test('columns by their names: a list that was read has them in cells of its own', () => {
    expect(only(bookWith({ Service: null }), 'service').cures[0]).toMatch(/^Service: /);
    expect(only(bookWith({}, [withoutThickness]), 'thickness').cures).toEqual([
      expect.stringMatching(/^Minimum thickness of Plover: /),
    ]);
    const apart = bookWith({ 'Known tension': 5, Power: 90 });
    expect(only(apart, 'methods').cures.at(-1)).toBe(
      'Enter in Tension method which one counts, or the tension itself in Known tension.',
    );
  });

  test('a working tension typed over its formula is said to be what the checks use', () => {
    const book = bookWith({ 'Known tension': 5, Power: 90 });
    expect(only(book, 'methods').message).toContain('The checks use the known tension, 5 N/mm.');
    book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Working tension'), content: 5000 }]);
    expect(only(book, 'methods').message).toContain(
      'The checks use the working tension entered over its formula, 5000 N/mm.',
    );
    expect(only(book, 'belt tension').message).toContain('working tension (entered over its formula)');
  });

  test('inputs that do not agree, and none that are empty', () => {
    const book = bookWith({}, [{ ...plover, 'Minimum pulley at 45': 400 }]);
    expect(only(book, 'pulley').message).toBe(
      'The pulley check cannot be made: Minimum pulley square of plate series Plover, 315 mm, Skew, 45° and Minimum ' +
        'pulley at 45, 400 mm do not agree.',
    );
  });

  test('a wrap that the table of screw take-ups does not have, and ways round it', () => {
    const book = bookWith({ 'Take-up type': 'screw', 'Wrap angle': 170 });
    expect(only(book, 'tension').cures[0]).toBe(
      'Wrap angle: wrap must be at least 180; 170 was given. No figure is known for a smaller wrap with a screw ' +
        'take-up: take a measured tension, or lead the belt further round the drive pulley.',
    );
  });
});

describe('checks that fail', () => {
  test('pulley: the least skew, and none below it', () => {
    const book = bookWith({
      'Smallest pulley': 250,
      'Head pulley': 630,
      'Tail pulley': 630,
      Skew: 0,
      'Carcass thickness': 2,
      'Belt rating': 90,
    });
    const finding = only(book, 'pulley');
    expect(finding.message).toBe(
      'The smallest pulley, 250 mm, is below the minimum pulley of a Plover joint at a skew of 0°, 315 mm.',
    );
    expect(finding.given).toEqual({ label: 'the smallest pulley', value: 250, kind: 'length', unit: 'mm' });
    expect(finding.limit?.value).toBe(315);
    const skew = Number(/a skew of at least ([\d.]+)°/.exec(finding.cures.join(' '))?.[1]);
    // 315 - 180 sin(skew)^2 reaches 250 at 36.94 degrees; edge and take-up have a say in what fits beside it.
    expect(skew).toBeGreaterThanOrEqual(37);
    expect(['fits', 'tight']).toContain(verdictAfter(book, 'Skew', skew, 'Pulley check'));
    const least = Math.min(
      ...[...finding.cures.join(' ').matchAll(/a skew of at least ([\d.]+)°/g)].map(([, degrees]) => Number(degrees)),
    );
    expect(verdictAfter(book, 'Skew', least, 'Pulley check')).toBe('tight');
    expect(verdictAfter(book, 'Skew', least - 0.5, 'Pulley check')).toBe('fails');
    expect(finding.cures.join(' ')).toContain('Fit a pulley of 315 mm or more');
  });

  test('a rating at 45 counts beside 45 too, as a cut that is measured by its offset lies', () => {
    const series = [{ ...plover, 'Minimum pulley square': 500, 'Minimum pulley at 45': 225 }];
    const belt = { 'Smallest pulley': 250, 'Carcass thickness': 2, 'Belt rating': 90 };
    for (const skew of [43, 44.9, 45, 45.1, 60])
      expect(bookWith({ ...belt, Skew: skew }, series).read('Belts', 0, 'Pulley check')).not.toBe('fails');
    expect(bookWith({ ...belt, Skew: 42 }, series).read('Belts', 0, 'Pulley check')).toBe('fails');
  });

  test('carcass: the standard pulley, the other group, nothing of skew', () => {
    const book = bookWith({ 'Smallest pulley': 315, 'Carcass thickness': 3.8, 'Belt rating': 30 });
    const finding = only(book, 'carcass');
    expect(finding.message).toBe(
      "The smallest pulley, 315 mm, is below the minimum pulley for the belt's own carcass, 400 mm. A skew " +
        'does not help ' +
        'the carcass.',
    );
    expect(finding.cures[0]).toContain('Fit a pulley of 400 mm or more');
    expect(verdictAfter(book, 'Smallest pulley', 400, 'Carcass check')).toBe('tight');
    expect(finding.cures.join(' ')).toContain(
      'If that pulley is a low-tension bend (group B) or a snub (group C), enter it in the sheet Pulleys ' +
        'with its group',
    );
    const other = bookWith({ 'Smallest pulley': 315, 'Carcass thickness': 3.8, 'Belt rating': 30 }, [plover], {
      PulleyGroup: 'B',
    });
    expect(other.read('Belts', 0, 'Carcass check')).toBe('tight');
  });

  test('carcass, US customary: the usual pulley in inches', () => {
    const metric = bookWith({ 'Smallest pulley': 315, 'Carcass thickness': 3.8, 'Belt rating': 30 });
    metric.convert('us');
    const finding = only(metric, 'carcass');
    expect(finding.message).toContain('The smallest pulley, 12.4 in, is below');
    expect(finding.cures[0]).toContain('16 in or more (next usual inch diameter)');
    expect(finding.given?.unit).toBe('in');
  });

  test('thickness: the series that takes it, the skive that would do, no deeper than the cover', () => {
    const book = bookWith({ Thickness: 14, 'Top cover': 6 });
    const finding = only(book, 'thickness');
    expect(finding.message).toBe(
      'The clamped thickness, 14 mm, is above the maximum thickness of series Plover, 12 mm.',
    );
    expect(finding.cures.some((cure) => cure.includes('Heron'))).toBe(true);
    expect(finding.cures.join(' ')).toContain('Skive 2 mm to 5 mm');
    for (const depth of [2, 6]) expect(verdictAfter(book, 'Skive depth', depth, 'Thickness check')).not.toBe('fails');
    expect(only(bookWith({ Thickness: 14, 'Top cover': 1 }), 'thickness').cures.join(' ')).toContain(
      'more than the top cover of 1 mm',
    );
  });

  test('tension: where the tension comes from, the series that carries it, what the present one carries', () => {
    const book = bookWith({ 'Known tension': 40, 'Belt rating': 90 });
    const finding = only(book, 'tension');
    expect(finding.message).toBe(
      'The working tension (as entered), 40 N/mm, is above the rating of series Plover, 34 N/mm.',
    );
    expect(finding.cures.join(' ')).toContain('At 34 N/mm, the series rating, this check passes: reduce the tension');
    const heronFits = bookWith({ 'Known tension': 38, 'Belt rating': 45 }, [
      plover,
      { ...plover, Series: 'Heron', 'Tension rating': 60 },
    ]);
    expect(only(heronFits, 'tension').cures[0]).toBe('Use series Heron: all checks then fit.');
    expect(verdictAfter(heronFits, 'Plate series', 'Heron')).toBe('fits');
  });

  test.each(['tension', 'belt tension', 'load per plate'])('%s: passes at the tension that its cure names', (word) => {
    const own = [29, 30, 31, 32, 33, 33.6, 34, 36, 60].flatMap((tension) => {
      const book = bookWith({ 'Known tension': tension, 'Belt rating': 33 });
      return recordFindings(book, 0)
        .filter(({ check }) => check === word)
        .map((finding) => ({ book, finding }));
    });
    expect(own.length).toBeGreaterThan(0);
    for (const { book, finding } of own) {
      const named = Number(/^At ([\d.]+) N/.exec(finding.cures.find((cure) => cure.startsWith('At ')) ?? '')?.[1]);
      const column = checks.find((check) => check.word === word)?.column ?? 'Verdict';
      const then = verdictAfter(book, 'Known tension', named, column);
      expect(finding.verdict === 'tight' ? ['fits'] : ['fits', 'tight'], finding.cures.join(' ')).toContain(then);
    }
  });

  test('tension from power: its cure lowers the load, not the entered power', () => {
    const book = bookWith({
      'Known tension': null,
      'Tension method': 'power',
      Power: 400,
      Speed: 1,
      'Wrap angle': 180,
    });
    expect(only(book, 'tension').cures.join(' ')).toContain(
      'limit the starting torque or the load, or choose a stronger series; correct Power only if it is wrong',
    );
  });

  test('edge: the nearest skews on both sides, each tried', () => {
    const book = bookWith({ Skew: 0, 'Smallest pulley': 1000, 'Head pulley': 1000, 'Tail pulley': 1000, Width: 800 }, [
      { ...plover, 'Minimum edge': 10, 'Maximum edge': 12 },
      heron,
    ]);
    book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Skew'), content: 30 }]);
    const finding = only(book, 'edge');
    expect(finding.verdict).toBe('fails');
    const skews = [...finding.cures.join(' ').matchAll(/a skew of ([\d.]+)°/g)].map(([, degrees]) => Number(degrees));
    expect(skews.length).toBeGreaterThan(0);
    for (const skew of skews) expect(verdictAfter(book, 'Skew', skew, 'Edge check')).not.toBe('fails');
  });

  test('take-up: the greatest skew and the travel needed', () => {
    const book = bookWith({ 'Take-up travel': 1200 });
    const finding = only(book, 'take-up');
    // A plate of 41 mm, two trims of 100 and the width; a tenth of 1.5 % of a loop of 282 m.
    expect(finding.message).toBe(
      'The take-up travel needed for a joint at a skew of 45° after a square one, 1464 mm, is above the travel ' +
        'available, 1200 mm. The joint takes 1041 mm of belt, and 423 mm of travel must be left for stretch. ' +
        'Replaces is not given: a square joint is assumed.',
    );
    const skew = Number(/at most ([\d.]+)°/.exec(finding.cures.join(' '))?.[1]);
    expect(verdictAfter(book, 'Skew', skew, 'Take-up check')).not.toBe('fails');
    const greatest = Math.max(
      ...[...finding.cures.join(' ').matchAll(/at most ([\d.]+)°/g)].map(([, degrees]) => Number(degrees)),
    );
    expect(greatest).toBe(33.5);
    expect(finding.cures.join(' ')).toContain('Increase the take-up travel from 1200 mm to 1464 mm');
    expect(finding.cures.join(' ')).toContain('Put in an insert of 2 m with two joints, 4 m to order');
    expect(verdictAfter(book, 'Insert', 2, 'Take-up check')).toBe('fits');
    const shared = only(bookWith({ 'Take-up travel': 600 }, [plover], { TakeUpShare: 2 }), 'take-up');
    expect(shared.limit?.value).toBe(600);
    expect(shared.cures.join(' ')).toContain('Increase the take-up travel from 600 mm to 732 mm');
  });

  test('service: the flags that lack, the series that has them', () => {
    const book = bookWith({ Service: 'Magnet, underground' }, [
      plover,
      { ...plover, Series: 'Heron', 'Non-magnetic': 'yes' },
    ]);
    const finding = only(book, 'service');
    expect(finding.message).toBe(
      'The service, "Magnet, underground", needs plate properties that series Plover does not have (Non-magnetic: no).',
    );
    expect(finding.cures).toEqual(['Use series Heron: all checks then fit.']);
  });

  test('age: since when, when it was due, renewing', () => {
    const book = bookWith({ Installed: 40000 });
    const finding = only(book, 'age');
    expect(finding.message).toContain('It was installed on 2009-07-06 and was due on 2014-07-06.');
    expect(finding.cures).toEqual(['Renew the joint and enter the date in Installed: all checks then fit.']);
    expect(verdictAfter(book, 'Installed', 46351)).toBe('fits');
  });

  test('another series at another skew, when neither alone will do', () => {
    const stiff = {
      ...plover,
      Series: 'Heron',
      'Tension rating': 90,
      'Minimum pulley square': 660,
      'Minimum pulley at 45': null,
    };
    const book = bookWith(
      { 'Known tension': 40, 'Belt rating': 90, Skew: 0, 'Smallest pulley': 500, 'Head pulley': 630 },
      [plover, stiff],
    );
    const cure = /Use series Heron at a skew of ([\d.]+)°/.exec(only(book, 'tension').cures.join(' '));
    expect(cure).not.toBeNull();
    book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Plate series'), content: 'Heron' }]);
    expect(book.read('Belts', 0, 'Verdict')).toBe('fails');
    expect(verdictAfter(book, 'Skew', Number(cure?.[1]))).not.toBe('fails');
  });
});

describe('checks that are tight', () => {
  test('say how near, and are cured by what fits', () => {
    const finding = only(bookWith({ 'Known tension': 33, 'Belt rating': 90 }), 'tension');
    expect(finding.message).toBe(
      'The working tension (as entered), 33 N/mm, is only 2.9 % below the rating of series Plover, 34 N/mm, less ' +
        'than the margin of 5 %.',
    );
  });

  test('two numbers that round to the same are told apart', () => {
    const finding = only(bookWith({ 'Known tension': 33.996, 'Belt rating': 90 }), 'tension');
    expect(finding.message).toContain('33.996 N/mm, is only 0.01 % below');
  });
});

describe('cures and findings of the demo', () => {
  const book = new Workbook(demoBook('metric'));
  const all = findings(book);
  const harms = (cure: string): boolean => /other checks then fail|then fails?\./.test(cure);

  test('never change the group of all pulleys of the fleet', () => {
    const texts = all.flatMap(({ cures }) => cures).join('\n');
    expect(texts).toContain('enter it in the sheet Pulleys with its group');
    expect(texts).not.toContain('PulleyGroup');
  });

  test('by which another check fails come last, and not at all beside one that does no harm', () => {
    let harmful = 0;
    for (const { cures, name, check } of all) {
      const own = cures.filter((cure) => !cure.startsWith('Ask the plate supplier'));
      const first = own.findIndex(harms);
      if (first < 0) continue;
      harmful += 1;
      expect(own.slice(first).every(harms), `${name}, ${check}`).toBe(true);
      expect(
        own
          .slice(0, first)
          .some((cure) => /: .* then (?:fits?|fails|passes)\b/.test(cure) && !cure.startsWith('If that pulley')),
      ).toBe(false);
    }
    expect(harmful).toBeGreaterThan(0);
  });

  test('of tension, pulley and carcass that fail end by saying whom to ask; no others do', () => {
    const asking = all.filter(({ cures }) =>
      cures.at(-1)?.startsWith('Ask the plate supplier or a competent engineer'),
    );
    expect(asking).toEqual(
      all.filter(({ check, verdict }) => verdict === 'fails' && ['tension', 'pulley', 'carcass'].includes(check)),
    );
    expect(asking.length).toBeGreaterThan(0);
  });

  test('methods that disagree are called neither tight nor anything else that a belt may be', () => {
    const differing = all.filter(({ check }) => check === 'methods');
    expect(differing.length).toBeGreaterThan(0);
    for (const { verdict } of differing) expect(verdict).toBe('compare');
  });
});

test('a verdict set by hand is told as such', () => {
  const finding = only(bookWith({ 'Pulley check': 'fails' }), 'pulley');
  expect(finding.message).toBe('The pulley check was set to "fails" by hand: nothing was compared.');
  expect(finding.cell).toBe(`Belts!${letters('Pulley check')}2`);
  expect(only(bookWith({ 'Pulley check': 'fine' }), 'pulley').verdict).toBe('not known');
});

describe('checks that can not be made', () => {
  const cause = (changed: Cells, check: string, series?: readonly Cells[], named?: Cells): Finding =>
    only(bookWith(changed, series, named), check);

  test.each<[string, Cells, string, string, string]>([
    [
      'an empty input behind a formula',
      { 'Drive friction': null, 'Tension method': 'power' },
      'tension',
      'Belts!S2',
      'Drive friction is empty',
    ],
    ['an input out of bounds', { Skew: 75 }, 'pulley', 'Belts!V2', 'Skew is 75°'],
    [
      'a text',
      { Thickness: 'about 10' },
      'thickness',
      'Belts!F2',
      'Thickness holds the text "about 10", which is not a number',
    ],
    ['a formula that fails', { Speed: '=1/0' }, 'tension', 'Belts!O2', 'the formula gives #DIV/0!'],
    [
      'an unknown series',
      { 'Plate series': 'Plovr' },
      'edge',
      'Belts!W2',
      'Plate series names "Plovr", which is not in the sheet Plate series',
    ],
    ['no series', { 'Plate series': null }, 'edge', 'Belts!W2', 'Plate series is empty'],
    [
      'no tension at all',
      { Power: null, 'Belt rating': null, Construction: 'EP belt' },
      'tension',
      'Belts!T2',
      'there are four methods for the working tension, and none has its inputs',
    ],
    [
      'a designation that says no material',
      { Construction: 'PVC 2 ply' },
      'carcass',
      'Belts!E2',
      'Construction, "PVC 2 ply" is not allowed',
    ],
    [
      'a conveyor that is too short',
      { Power: null, Capacity: 200, 'Pulley centres': 30, Lift: 1, 'Tension method': 'resistances' },
      'tension',
      'Belts!M2',
      'Pulley centres is 30 m',
    ],
    [
      'inputs that do not go together',
      { 'Skive depth': 11 },
      'thickness',
      'Belts!X2',
      'Skive depth, 11 mm, must be less than Thickness, 9.8 mm',
    ],
    [
      'covers as thick as the belt',
      { 'Carcass thickness': null, Thickness: 6, 'Top cover': null },
      'carcass',
      'Belts!E2',
      'Covers used, 6 mm, by Construction, "EP 400/3 4+2", must be less than Thickness, 6 mm',
    ],
    [
      'a joint of the future',
      { Installed: 47000 },
      'age',
      'Belts!Z2',
      'Installed, 2028-09-04, must not be after ReviewDate',
    ],
    ['a word that is no service', { Service: 'wet, food' }, 'service', 'Belts!AC2', 'Service holds "wet"'],
    [
      'an override that is no number',
      { 'Working tension': 'see log' },
      'tension',
      `Belts!${letters('Working tension')}2`,
      '"see log" replaces the sheet\'s own formula',
    ],
  ])('%s', (_, changed, check, cell, message) => {
    const finding = cause(changed, check);
    expect(finding.verdict).toBe('not known');
    expect(finding.message).toContain(message);
    expect(finding.cell).toBe(cell);
    expect(finding.cures.length).toBeGreaterThan(0);
  });

  test('all inputs that are missing are named, and only those of the route taken', () => {
    const finding = cause(
      { 'Wrap angle': null, 'Drive friction': null, Capacity: null, 'Pulley centres': null, 'Tension method': 'power' },
      'tension',
    );
    expect(finding.cures.map((cure) => cure.split(':')[0])).toEqual(['Wrap angle', 'Drive friction']);
  });

  test('the nearest series are listed', () => {
    expect(cause({ 'Plate series': 'Plovr' }, 'edge').cures.join(' ')).toContain('choose Plover, or enter "Plovr"');
  });

  test("a series' figure is named with its sheet", () => {
    const finding = cause({}, 'tension', [{ ...plover, 'Tension rating': null }]);
    expect(finding.cell).toBe("'Plate series'!K2");
    expect(finding.column).toBe('Tension rating');
    expect(finding.message).toContain('plate series Plover: Tension rating is empty');
  });

  test('only the flags that a service calls for are asked for', () => {
    const finding = cause({ Service: 'food' }, 'service', [
      { ...plover, 'Food grade': null, 'Flame resistant': 'maybe' },
    ]);
    expect(finding.cures).toHaveLength(1);
    expect(finding.cell).toBe("'Plate series'!AH2");
  });

  test('an assumption out of bounds', () => {
    const finding = cause({}, 'take-up', [plover], { TakeUpShare: 5 });
    expect(finding.cell).toBe('Assumptions!B8');
    expect(finding.message).toContain('TakeUpShare is 5');
  });

  test('an assumption that is gone', () => {
    const book = bookWith({});
    book.removeRecords(
      'Assumptions',
      book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === 'TakeUpShare'),
      1,
    );
    const finding = only(book, 'take-up');
    expect(finding.message).toContain('the sheet Assumptions has no row named TakeUpShare');
    expect(finding.cell).toMatch(/^Assumptions!/);
  });
});

describe('the demo', () => {
  test.each(['metric', 'us'] as const)('%s: its findings are the same checks, and none is of an input', (units) => {
    const book = new Workbook(demoBook(units));
    const list = findings(book);
    expect(list.filter(({ check }) => check === 'input')).toEqual([]);
    expect(list.length).toBeGreaterThan(15);
    const told = list.map(({ name, check, verdict }) => `${name} ${check} ${verdict}`);
    expect(told).toEqual(
      findings(new Workbook(demoBook('metric'))).map(({ name, check, verdict }) => `${name} ${check} ${verdict}`),
    );
    for (const { message, cures, verdict } of list) {
      expect(message).not.toMatch(/undefined|NaN|null|\[object/);
      expect(cures.length, `${message}`).toBeGreaterThan(verdict === 'tight' ? -1 : 0);
    }
  });
});

/** Applies every cure that names a skew, a series or a pulley, and tells those that do not do what they say. */
function falseCures(book: Workbook, finding: Finding): string[] {
  const column = checks.find(({ word }) => word === finding.check)?.column ?? 'Verdict';
  const outcomes: readonly (readonly [RegExp, (verdict: unknown) => boolean])[] = [
    [/all checks then fit\.$/, (verdict) => verdict === 'fits'],
    [/no check then fails, but [^.]*tight\.$/, (verdict) => verdict === 'tight'],
    [/no check then fails, but [^.]*not known\.$/, (verdict) => verdict === 'not known'],
    [/(?:then|still) fails?\.$|failures remain\.$/, (verdict) => verdict === 'fails'],
  ];
  return finding.cures.flatMap((cure) => {
    const skew = /a skew of (?:at least |at most )?([\d.]+)°/.exec(cure)?.[1];
    const pulley = /^Fit a pulley of ([\d.]+) (?:mm|in) or more(?: as ([a-z, ]+) pulley)?/.exec(cure);
    const placed = (pulley?.[2] ?? 'smallest').split(/, | and /).map((place) => `${capital(place)} pulley`);
    const names = book
      .sheet('Plate series')
      .rows.map((_, record) => book.content({ sheet: 'Plate series', record, column: 0 }));
    const series = names.find((name) => cure.startsWith(`Use series ${String(name)}`));
    const inputs = {
      ...(skew === undefined || cure.startsWith('No ') ? {} : { Skew: Number(skew) }),
      ...(series === undefined ? {} : { 'Plate series': series }),
      ...(pulley === null ? {} : Object.fromEntries(placed.map((header) => [header, Number(pulley[1])]))),
    };
    if (Object.keys(inputs).length === 0) return [];
    book.edit(
      Object.entries(inputs).map(([header, content]) => ({
        sheet: belts.name,
        record: finding.record,
        column: columnOf(book, belts.name, header),
        content,
      })),
    );
    const check = book.read(belts.name, finding.record, column);
    const verdict = book.read(belts.name, finding.record, 'Verdict');
    book.undo();
    const cured = check === 'fits' || (finding.verdict === 'fails' && check === 'tight');
    const told = outcomes.find(([pattern]) => pattern.test(cure));
    return cured && told !== undefined && told[1](verdict)
      ? []
      : [`${finding.check} ${finding.verdict}: "${cure}" gives ${String(check)}, the belt ${String(verdict)}`];
  });
}

describe('over random books', () => {
  test('every check that does not fit has one finding, whose cell is there, and whose cures do what they say', () => {
    let cures = 0;
    fc.assert(
      fc.property(randomBooks({ belts: 4, series: 2, named: 1, formulas: false }), (state) => {
        const book = new Workbook(state);
        const list = findings(book);
        book.sheet(belts.name).rows.forEach((_, record) => {
          const open = checks
            .filter(({ column }) => verdictOf(book.read(belts.name, record, column)) !== 'fits')
            .map(({ word }) => word);
          expect(
            list
              .filter(
                (item) =>
                  item.record === record && item.sheet === belts.name && checks.some(({ word }) => word === item.check),
              )
              .map(({ check }) => check),
          ).toEqual(open);
        });
        for (const finding of list) {
          const area = cellArea(finding.cell);
          const header =
            area === undefined ? undefined : book.columnAt({ sheet: area.sheet ?? '', column: area.left })?.header;
          expect(header, `${finding.cell}`).toBe(finding.column);
          expect(finding.message).not.toMatch(/undefined|NaN|\[object/);
          if (finding.verdict === 'not known') expect(finding.cures.length, `${finding.message}`).toBeGreaterThan(0);
          if (finding.verdict === 'fails' && !['service', 'series', 'drive', 'layers'].includes(finding.check)) {
            for (const figure of [finding.given, finding.limit])
              expect(typeof figure?.value, `${finding.message}`).toBe('number');
          }
          cures += finding.cures.length;
          if (checks.some(({ word }) => word === finding.check) && finding.verdict !== 'not known')
            expect(falseCures(book, finding)).toEqual([]);
        }
      }),
      { numRuns: 60 },
    );
    expect(cures).toBeGreaterThan(200);
  }, 120_000);
});
