import DxfParser from 'dxf-parser';
import { describe, expect, test } from 'vitest';
import { cardHtml } from './card-texts.ts';
import { type JobCard, jobCard, toolList } from '../../src/card/job-card.ts';
import { cardSections } from '../../src/card/card-sections.ts';
import { holePairs } from '../../src/card/hole-sections.ts';
import { jointCounts, jobRates } from '../../src/job/job-time.ts';
import { jointDxf } from '../../src/drawing/joint-dxf.ts';
import { paperSvg } from '../../src/drawing/paper-svg.ts';
import { shopDrawing } from '../../src/drawing/shop-drawing.ts';
import { onTape } from '../../src/drawing/tape.ts';
import { stripLength } from '../../src/functions/cut.ts';
import { holeSpots, tightenTurn } from '../../src/functions/plates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { timeLines } from '../oracles/simulated-time.ts';
import { steps as stepsSheet } from '../../sheets/work/steps.ts';
import type { BeltHeader, HeaderOf, SeriesHeader } from '../../sheets/index.ts';
import { columnOf } from '../workbook/books.ts';

const books = { metric: new Workbook(demoBook('metric')), us: new Workbook(demoBook('us')) };
const demo = books.metric;
const records = [...demo.sheet('Belts').rows.keys()];
const named = (belt: string): number => records.find((record) => demo.read('Belts', record, 'Belt') === belt) ?? -1;
const seriesOf = (book: Workbook, record: number, header: SeriesHeader): number =>
  Number(book.read('Plate series', Number(book.read('Belts', record, 'Series row')) - 2, header));
const inputs = (book: Workbook, record: number): number[] => [
  Number(book.read('Belts', record, 'Width')),
  Number(book.read('Belts', record, 'Skew')),
  ...(['Pitch', 'Plate width', 'Minimum edge', 'Hole setback', 'Hole spacing', 'Holes per side'] as const).map(
    (header) => seriesOf(book, record, header),
  ),
];

/** A book with cells changed, by column. */
function changed(
  belt: string,
  contents: Readonly<Record<string, string | number | null>>,
): { readonly book: Workbook; readonly record: number } {
  const book = new Workbook(demoBook('metric'));
  const record = named(belt);
  book.edit(
    Object.entries(contents).map(([header, content]) => ({
      sheet: 'Belts',
      record,
      column: columnOf(book, 'Belts', header),
      content,
    })),
  );
  return { book, record };
}

describe.each(['metric', 'us'] as const)('cards of the demo, %s', (units) => {
  const book = books[units];
  const cards = records.map((record) => ({ record, card: jobCard(book, record) }));

  test('have the figures of the Belts sheet', () => {
    for (const { record, card } of cards) {
      const dimension = (key: string): number | undefined => card.dimensions.find((one) => one.key === key)?.value;
      for (const [key, header] of [
        ['cut', 'Cut length'],
        ['offset', 'Edge offset'],
        ['plates', 'Plates'],
        ['edge', 'Edge clearance'],
        ['strip', 'Strip length each'],
        ['stripTotal', 'Strip per joint'],
        ['loss', 'Belt lost to skew'],
        ['holes', 'Holes'],
      ] as const) {
        expect(dimension(key), `${card.belt}, ${header}`).toBeCloseTo(Number(book.read('Belts', record, header)), 9);
      }
      expect(card.parts.find(({ item }) => item === 'Plates')?.count).toBe(
        String(book.read('Belts', record, 'Plates')),
      );
      expect(card.parts.find(({ item }) => item === 'Bolts with nuts')?.count).toBe(
        String(book.read('Belts', record, 'Bolts')),
      );
    }
  });

  test('have the hours of the Belts sheet, which are the PERT means of the same rates', () => {
    const rates = jobRates((name) => book.named(name));
    if ('faults' in rates) throw new Error('the demo has faulty rates');
    for (const { record, card } of cards) {
      if ('missing' in card.times) throw new Error(`${card.belt} has no times`);
      const figure = (header: BeltHeader): number => Number(book.read('Belts', record, header));
      const counts = jointCounts(
        {
          cutLength: figure('Cut length'),
          plates: figure('Plates'),
          bolts: figure('Bolts'),
          holes: card.holes.length,
          skived: figure('Skive depth') > 0,
        },
        units,
      );
      const lines = timeLines(counts, rates);
      const sum = (...takes: readonly string[]): number =>
        lines.filter(({ operation }) => takes.includes(operation.takes)).reduce((all, { mean }) => all + mean, 0);
      expect(figure('Labour hours')).toBeCloseTo(sum('before', 'crew'), 9);
      expect(figure('Downtime')).toBeCloseTo(sum('belt') + sum('crew') / Number(book.named('CrewSize')), 9);
      for (const { name, low, likely, high, mean, planned } of card.times.rows) {
        expect(mean).toBe(figure(name));
        expect(mean).toBeCloseTo((low + 4 * likely + high) / 6, 9);
        expect(planned).toBeGreaterThan(mean);
        expect(planned).toBeLessThan(high);
      }
      expect(card.times.ways[0]?.crewHours).toBeCloseTo(figure('Labour hours'), 9);
    }
  });

  test('fill every place of every step, or say that it is not known', () => {
    for (const { record, card } of cards) {
      expect(card.steps.length).toBeGreaterThan(20);
      const unknown = new Set(card.steps.flatMap(({ missing }) => missing));
      for (const name of unknown) {
        const column = book.findColumn('Belts', name);
        if (column !== undefined)
          expect(typeof book.value({ sheet: 'Belts', record, column }), `${card.belt}, ${name}`).not.toBe('number');
      }
      for (const { filled, missing } of card.steps) {
        expect(filled).not.toMatch(/[{}]|NaN|undefined|null/);
        expect(filled.includes('not known')).toBe(missing.length > 0);
      }
      const notes = cardSections(card).flatMap((section) => (section.type === 'note' ? [section.text] : []));
      expect(notes.some((text) => text.startsWith('Not known: '))).toBe(unknown.size > 0);
    }
  });

  test('visit each plate once in each of two passes, in the order of TIGHTENTURN', () => {
    for (const { card } of cards) {
      const plates = card.tightening.length;
      expect(plates).toBeGreaterThan(0);
      expect(card.tightening.map((plate) => tightenTurn.evaluate([plates, plate]))).toEqual(
        Array.from({ length: plates }, (_, turn) => turn + 1),
      );
      const passes = cardSections(card).flatMap((section) => (section.type === 'ticks' ? [section.labels] : []));
      expect(passes).toEqual([card.tightening.map(String), card.tightening.map(String)]);
    }
  });

  test('have strips that sum to STRIPLENGTH', () => {
    for (const { record, card } of cards) {
      const [width = 0, skew = 0] = inputs(book, record);
      const sum = card.joint?.strips.reduce((all, { length }) => all + length, 0);
      expect(sum).toBeCloseTo(
        Number(
          stripLength.evaluate([width, skew, Number(book.named('StripOverhang')), Number(book.named('StripPieces'))]),
        ),
        9,
      );
      expect(card.joint?.strips).toHaveLength(Number(book.named('StripPieces')));
    }
  });
});

describe('holes', () => {
  test.each([
    ['Q1', 'right'],
    ['S1', 'left'],
    ['L1', 'left'],
    ['G4', 'right'],
  ] as const)('of %s, %s-hand, agree in HOLESPOTS, the table, DXF and SVG', async (belt, hand) => {
    const { book, record } = changed(belt, { 'Skew hand': hand });
    const card = jobCard(book, record);
    const { joint } = card;
    if (joint === undefined) throw new Error('no joint');
    const mirror = (across: number): number => (hand === 'left' ? joint.width - across : across);
    const spots = (holeSpots.evaluate(inputs(book, record)) as number[][]).map(
      ([along = 0, across = 0]) => [along, mirror(across)] as const,
    );
    const dxf = await jointDxf(joint, card);
    if (typeof dxf !== 'string') throw new Error(dxf.refused);
    const circles = (new DxfParser().parseSync(dxf)?.entities ?? []).flatMap((entity) => {
      const { center, layer } = entity as {
        readonly center?: { readonly x: number; readonly y: number };
        readonly layer: string;
      };
      return layer === 'holes' && center !== undefined ? [[center.x, center.y] as const] : [];
    });
    const svg = [
      ...paperSvg(shopDrawing(joint, card)).matchAll(/<circle class="hole"[^>]* cx="([^"]+)" cy="([^"]+)"/g),
    ].map(([, x, y]) => [Number(x), Number(y)] as const);
    expect(spots.length).toBe(card.holes.length);
    expect(circles.length).toBe(spots.length);
    spots.forEach(([along, across], index) => {
      const hole = card.holes[index];
      expect(hole?.along.exact).toBeCloseTo(along, 9);
      expect(hole?.across.exact).toBeCloseTo(mirror(across), 9);
      expect(circles[index]?.[0]).toBeCloseTo(along, 9);
      expect(circles[index]?.[1]).toBeCloseTo(across, 9);
      expect(svg.some(([x, y]) => Math.abs(x - along) < 1e-9 && Math.abs(y - across) < 1e-9)).toBe(true);
    });
  });

  test.each([
    ['metric', 'more than 0.5 mm.'],
    ['us', 'more than 1/32 in.'],
  ] as const)('of the %s book have their rounding said: %s', (units, words) => {
    expect(
      cardSections(jobCard(books[units], 0)).some((section) => section.type === 'note' && section.text.endsWith(words)),
    ).toBe(true);
  });

  test('stand in the card once each, in pairs, and midway distances are rounded alike', () => {
    for (const record of records) {
      const { holes, unit } = jobCard(demo, record);
      const pairs = holePairs(holes);
      expect(
        pairs
          .flatMap(({ trailing, leading }) => [trailing?.number, leading?.number])
          .toSorted((a, b) => Number(a) - Number(b)),
      ).toEqual(holes.map(({ number }) => number));
      for (const { trailing, leading } of pairs)
        expect(trailing?.run.exact).toBeCloseTo(leading?.run.exact ?? Number.NaN, 9);
      expect(new Set(holes.map(({ back }) => back.tape)).size).toBeLessThanOrEqual(1);
      expect(onTape(22.5 - 1e-13, unit)).toBe(onTape(22.5 + 1e-13, unit));
    }
  });
});

describe('cautions', () => {
  test('stand before step 1, with their rules', () => {
    const sections = cardSections(jobCard(demo, named('Q1')));
    const place = (title: string): number =>
      sections.findIndex((section) => section.type === 'title' && section.text === title);
    expect(place('Cautions, before step 1')).toBeGreaterThan(0);
    expect(place('Cautions, before step 1')).toBeLessThan(place('Steps'));
    expect(
      sections.findIndex(
        (section) => section.type === 'note' && section.text.includes("supplier's instructions take precedence"),
      ),
    ).toBeLessThan(place('Cautions, before step 1'));
    expect(
      sections.findIndex((section) => section.type === 'blanks' && section.names.includes('Permit number')),
    ).toBeLessThan(place('Steps'));
    const html = cardHtml(jobCard(demo, named('Q1')));
    expect(html.indexOf('29 CFR 1910.147')).toBeLessThan(html.indexOf('Read and check'));
  });

  test.each([
    ['none', 0],
    ['corrosive', 0],
    ['underground', 1],
    ['fire-rated', 1],
    ['food, underground', 1],
    [null, 1],
  ])('of a belt of service %s: flame resistance %i times, hot work and its permit always', (service, times) => {
    const { book, record } = changed('Q3', { Service: service });
    const card = jobCard(book, record);
    expect(card.cautions.filter(({ caution }) => caution.key === 'fire')).toHaveLength(times);
    expect(cardHtml(card).includes('30 CFR 75.1731(d)')).toBe(times === 1);
    expect(card.steps.some(({ notes }) => notes.some(({ key }) => key === 'fire'))).toBe(times === 1);
    expect(card.cautions.filter(({ caution }) => caution.key === 'hot work')).toHaveLength(1);
    expect(
      card.steps.filter(({ notes }) => notes.some(({ key }) => key === 'hot work')).map(({ title }) => title),
    ).toEqual(['Break and dress the bolt ends']);
    expect(card.permit).toContain('Hot-work permit number');
    expect(cardHtml(card)).toContain('29 CFR 1910.272(f)');
  });

  test('of hot work are left out, with their permit, where no step makes sparks', () => {
    const book = new Workbook(demoBook('metric'));
    const record = book
      .sheet(stepsSheet.name)
      .rows.findIndex((_, row) => book.read(stepsSheet.name, row, 'Step') === 'Break and dress the bolt ends');
    const column = (header: HeaderOf<'Steps'>): number => book.column(stepsSheet.name, header);
    book.edit([
      { sheet: stepsSheet.name, record, column: column('Text'), content: 'Break off the bolt ends.' },
      { sheet: stepsSheet.name, record, column: column('Tools'), content: 'hammer' },
      { sheet: stepsSheet.name, record, column: column('Cautions'), content: 'hot bits' },
    ]);
    const card = jobCard(book, named('Q3'));
    expect(card.cautions.some(({ caution }) => caution.key === 'hot work')).toBe(false);
    expect(card.permit).not.toContain('Hot-work permit number');
  });
});

describe('strips', () => {
  /** The first belt's series with these contents of Plate series. */
  const withSeries = (contents: Readonly<Partial<Record<SeriesHeader, string | number | null>>>): Workbook => {
    const book = new Workbook(demoBook('metric'));
    const record = Number(book.read('Belts', 0, 'Series row')) - 2;
    book.edit(
      Object.entries(contents).map(([header, content]) => ({
        sheet: 'Plate series',
        record,
        column: columnOf(book, 'Plate series', header),
        content,
      })),
    );
    return book;
  };
  const titles = (card: JobCard): string[] =>
    card.steps.map(({ title }) => title).filter((title) => /strip/i.test(title));
  const costs = (book: Workbook): number =>
    Number(book.read('Belts', 0, 'Plates')) * Number(seriesOf(book, 0, 'Plate price')) +
    Number(book.read('Belts', 0, 'Bolts')) * Number(seriesOf(book, 0, 'Bolt price'));

  test('none where the series has no strip: in no part, step, drawing or cost, and both costs are known', () => {
    const book = withSeries({ Strip: null });
    const card = jobCard(book, 0);
    expect(book.read('Belts', 0, 'Strip per joint')).toBe(0);
    expect(book.read('Belts', 0, 'Parts cost')).toBeCloseTo(costs(book), 9);
    expect(typeof book.read('Belts', 0, 'Joint cost')).toBe('number');
    expect(titles(card)).toEqual([]);
    expect(card.parts.map(({ item }) => item)).not.toContain('Strips');
    expect(card.joint?.strips).toEqual([]);
    expect(card.steps.map(({ filled }) => filled).join(' ')).not.toMatch(/strip/i);
    expect(book.read('Belts', 0, 'Verdict')).toBe('fits');
  });

  test('as many below and above as the series says; else one of StripPieces below and the rest above', () => {
    for (const [contents, below, above] of [
      [{}, 1, 2],
      [{ 'Strips below': 2, 'Strips above': 2 }, 2, 2],
      [{ 'Strips below': 0, 'Strips above': 1 }, 0, 1],
      [{ 'Strips above': 0 }, 1, 0],
    ] as const) {
      const book = withSeries(contents);
      const card = jobCard(book, 0);
      expect(card.joint?.strips.map(({ side }) => side)).toEqual([
        ...Array.from({ length: below }, () => 'below'),
        ...Array.from({ length: above }, () => 'above'),
      ]);
      expect(book.read('Belts', 0, 'Strip per joint')).toBeCloseTo(
        (below + above) * Number(book.read('Belts', 0, 'Strip length each')),
        9,
      );
      expect(card.parts.find(({ item }) => item === 'Strips')?.count).toBe(String(below + above));
      expect(titles(card)).toEqual([
        ...(below > 0 ? ['Lay the strips below'] : []),
        ...(above > 0 ? ['Lay the strips above'] : []),
        'Trim the strips',
      ]);
      expect(Number(book.read('Belts', 0, 'Parts cost'))).toBeGreaterThan(costs(book));
    }
  });
});

describe('tools', () => {
  test('stand once each, apart from the parts', () => {
    for (const record of records) {
      const { tools } = jobCard(demo, record);
      expect(new Set(tools.map((tool) => tool.toLowerCase())).size).toBe(tools.length);
      for (const tool of tools) {
        expect(tool).not.toMatch(/\b(?:plates?|bolts|nuts?|strips?)$/i);
        expect(tools.filter((other) => other.startsWith(`${tool} `) && !/^\S+ for /.test(other))).toEqual([]);
      }
    }
  });

  test('named twice, or once more exactly, are named once', () => {
    expect(
      toolList([
        'Tape',
        'straight edge',
        'tape',
        'this card',
        'straight edge longer than the cut',
        'punch',
        'punch oil',
      ]),
    ).toEqual(['tape', 'straight edge longer than the cut', 'punch', 'punch oil']);
  });
});

describe('what is not as it should be', () => {
  test('no width: no drawing, and the remark says what to enter', () => {
    const { book, record } = changed('Q1', { Width: null });
    const card = jobCard(book, record);
    expect(card.joint).toBeUndefined();
    expect(card.remarks.join(' ')).toContain('The joint cannot be drawn: enter Width as a number.');
    expect(cardSections(card).some(({ type }) => type === 'drawing')).toBe(false);
    expect('missing' in card.times).toBe(true);
  });

  test('no plate series: the cut is drawn, plates are not known', () => {
    const { book, record } = changed('Q1', { 'Plate series': null });
    const card = jobCard(book, record);
    expect(card.joint?.plates).toEqual([]);
    expect(card.parts[0]).toMatchObject({ item: 'Plates', count: 'not known' });
    expect(card.remarks.join(' ')).toContain('No plates are drawn');
  });

  test('plates that do not fit are told with their unit and what to do', () => {
    const { book, record } = changed('Q1', { Width: 40, Skew: 0, 'Plate series': 'Dunlin' });
    expect(jobCard(book, record).remarks[0]).toBe(
      'Do not punch or drill by this card: No plates are drawn: plate must fit on the cut: with the minimum edge on ' +
        'both sides one plate takes 60.5, the cut is 40; 24.5 was given (lengths in mm). Check the width of the ' +
        'belt, or choose another plate series.',
    );
  });

  test('a failing belt says so before anything else is read, and a value set by hand is told', () => {
    const failing = cardSections(jobCard(demo, named('Q3'))).find(
      (section) => section.type === 'note' && section.text.startsWith('This joint FAILS'),
    );
    expect(failing).toMatchObject({ strong: true });
    const { book, record } = changed('Q1', { Plates: 10 });
    expect(jobCard(book, record).remarks.join(' ')).toMatch(
      /Plates was set to 10 by hand in the sheet Belts; the drawing, the dimensions and the holes use 31\./,
    );
  });

  test('a verdict set by hand is printed as such, with the computed one, and does not clear the belt', () => {
    for (const contents of [{ Verdict: 'fits' }, { Verdict: 'fits', 'Pulley check': 'fits' }]) {
      const { book, record } = changed('Q3', contents);
      const card = jobCard(book, record);
      expect(card.heading.find(({ name }) => name === 'Checks')?.value).toBe('fits, set by hand; computed: fails');
      expect(card.worst).toBe('fails');
      expect(card.remarks).toContain('Verdict was set to "fits" by hand; the calculation gives "fails".');
      expect(
        cardSections(card).some(
          (section) =>
            section.type === 'note' && section.strong === true && section.text.startsWith('This joint FAILS'),
        ),
      ).toBe(true);
    }
    const { book, record } = changed('Q1', { 'Pulley check': 'fails' });
    expect(jobCard(book, record).verdict).toBe('fails, set by hand; computed: fits');
    expect(jobCard(demo, named('Q1')).verdict).toBe('fits');
  });

  test('steps of an earlier version, unchanged, give way to the present ones, and the card says so', () => {
    const book = new Workbook(demoBook('metric'));
    const text = book.column(stepsSheet.name, 'Text');
    const earlier =
      'Take clamps, blocks and tools off and count them, set the tension, put every guard back, clear everyone, take ' +
      'the locks off in the order of the permit.';
    const record = book
      .sheet(stepsSheet.name)
      .rows.findIndex((_, row) => book.read(stepsSheet.name, row, 'Step') === 'Clear and put the guards back');
    const filled = (): string | undefined =>
      jobCard(book, 0).steps.find(({ title }) => title === 'Clear and put the guards back')?.filled;
    const present = filled();
    book.edit([{ sheet: stepsSheet.name, record, column: text, content: earlier }]);
    expect(filled()).toBe(present);
    expect(jobCard(book, 0).remarks.join(' ')).toContain(
      "The sheet Steps holds an earlier version's text in 1 step: Clear and put the guards back.",
    );
    book.edit([{ sheet: stepsSheet.name, record, column: text, content: `${earlier} Ring the control room.` }]);
    expect(filled()).toContain('Ring the control room.');
    expect(jobCard(book, 0).remarks.join(' ')).not.toContain('earlier version');
    expect(jobCard(demo, 0).remarks.join(' ')).not.toContain('earlier version');
  });

  test("steps are the book's own: edited, added, moved; a faulty row is told", () => {
    const book = new Workbook(demoBook('metric'));
    const column = (header: HeaderOf<'Steps'>): number => book.column(stepsSheet.name, header);
    book.edit([
      { sheet: stepsSheet.name, record: 0, column: column('Text'), content: 'Ring the control room about {Belt}.' },
      { sheet: stepsSheet.name, record: 1, column: column('Text'), content: 'Try {Widht}.' },
    ]);
    book.addRecords(stepsSheet.name, 0, [
      [5, 'Brief the crew', 'both', 'All read this card of {Width}.', '', 'no', 'no', '', '', ''],
    ]);
    const card = jobCard(book, named('Q1'));
    expect(card.steps[0]).toMatchObject({
      number: 1,
      title: 'Brief the crew',
      filled: 'All read this card of 1200 mm.',
      source: 'entered by the user',
    });
    expect(card.steps[1]?.filled).toBe('Ring the control room about Q1.');
    expect(card.steps[2]?.filled).toBe('Try not known.');
    expect(card.remarks.join(' ')).toContain(
      'Steps!D4, Text: there is no value with this name, so the step prints "not known" ("Widht" is given); ' +
        'allowed: for example Width',
    );
  });

  test('the code holds the name and nothing else; a name too long has none', () => {
    const { book, record } = changed('Q1', { Belt: 'x'.repeat(200) });
    expect(jobCard(book, record).code).toBeUndefined();
    expect(jobCard(demo, named('Q1')).code?.length).toBe(21);
  });
});
