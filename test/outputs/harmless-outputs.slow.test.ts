import { decodePDFRawStream, PDFArray, PDFDict, PDFDocument, PDFName, PDFRawStream, PDFStream } from '@cantoo/pdf-lib';
import DxfParser from 'dxf-parser';
import ExcelJS from 'exceljs';
import { unzipSync } from 'fflate';
import ICAL from 'ical.js';
import { SaxesParser } from 'saxes';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { cardsPdf } from '../../src/card/card-pdf.ts';
import { cardSheet } from '../../src/card/card-rows.ts';
import { jobCard, type JobCard } from '../../src/card/job-card.ts';
import { findings } from '../../src/checks/findings.ts';
import { jointDxf } from '../../src/drawing/joint-dxf.ts';
import type { JointGeometry } from '../../src/drawing/joint.ts';
import { jointTemplate } from '../../src/drawing/joint-template.ts';
import { paperSvg } from '../../src/drawing/paper-svg.ts';
import { shopDrawing } from '../../src/drawing/shop-drawing.ts';
import { isFormula } from '../../src/formula/values.ts';
import { settledOrder } from '../../src/order/settled-order.ts';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { feasibleFleet, fleetSeries, seriesChanges } from '../../src/order/fleet-series.ts';
import { orderBook } from '../../src/order/order-files.ts';
import { fleetShelf } from '../../src/order/shelf-lines.ts';
import { fleetComparison } from '../../src/order/square-or-skew.ts';
import { fleetOutage } from '../../src/outage/fleet-outage.ts';
import { outageBook, outageCalendarFile, outagePicture } from '../../src/outage/outage-files.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import { orderPapers, orderPdf } from '../../src/purchase/order-papers.ts';
import { requestDocuments } from '../../src/purchase/request-document.ts';
import { requestForm } from '../../src/purchase/request-form.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { commaRows } from '../../src/workbook/csv.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { laidBook } from '../../src/xlsx/write/laid-book.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { hostileBook, hostileTexts } from './hostile-book.ts';

/**
 * Whatever texts a book holds, its files hold the same things: no formula, element, line, code or action more than
 * those of the book without them.
 */

vi.setConfig({ testTimeout: 120_000, hookTimeout: 240_000 });

const stamp = new Date(Date.UTC(2026, 10, 25));

interface Outputs {
  readonly state: BookState;
  readonly books: Readonly<Record<'book' | 'order' | 'outage' | 'cards' | 'sent' | 'request', Uint8Array>>;
  readonly calendar: string;
  readonly pictures: readonly string[];
  readonly dxf: readonly string[];
  readonly pdf: Readonly<Record<'cards' | 'template' | 'order', Uint8Array>>;
  readonly csv: readonly string[];
  readonly names: readonly string[];
}

const drawn = (card: JobCard): card is JobCard & { readonly joint: JointGeometry } => card.joint !== undefined;

async function outputs(state: BookState): Promise<Outputs> {
  const book = new Workbook(state);
  const solver = await loadSolver();
  const { order, supplied, plans } = await settledOrder(book, fleetOrder(book, { which: 'all' }), solver, {
    seconds: 4,
  });
  const feasible = await feasibleFleet(book);
  const answer = await fleetSeries(book, feasible, solver);
  const made = {
    order,
    supplied,
    shelf: fleetShelf(book, order),
    plans,
    series: { answer, changes: answer.best === undefined ? [] : seriesChanges(book, feasible, answer.best) },
    comparison: fleetComparison(book),
  };
  const fleet = fleetOutage(book, { scope: { which: 'all' }, aim: 'earliest finish', step: 60, dueLimits: false });
  const plan = await planOutage(fleet.request, { solver: () => loadSolver(), seconds: 4 });
  const cards = book
    .sheet('Belts')
    .rows.map((_, record) => jobCard(book, record))
    .filter(drawn);
  const dxf = await Promise.all(cards.map((card) => jointDxf(card.joint, { ...card, cutOnly: true })));
  const [first] = cards;
  if (first === undefined) throw new Error('no joint of the book can be drawn');
  const template = await jointTemplate(first.joint, { ...first, cutOnly: true, paper: 'A4' });
  const { papers } = orderPapers(book, order, supplied, { inputs: [], options: [], unfinished: [] });
  const [sent] = papers;
  const [request] = requestDocuments(book, order, { suppliers: [], everything: true });
  if (sent === undefined || request === undefined) throw new Error('nothing is to be ordered');
  return {
    state,
    books: {
      book: (await exportedBook(book, findings(book), { stamp })).bytes,
      order: await tableBook(book, orderBook(state, made, state.title), { stamp }),
      outage: await tableBook(book, outageBook(state, fleet, plan, state.title), { stamp }),
      cards: await laidBook(
        cards.map((card) => cardSheet(card)),
        { title: state.title, paper: 9, stamp },
      ),
      sent: await laidBook(sent.sheets, { title: sent.title, paper: 9, stamp }),
      request: await laidBook([requestForm(request)], { title: state.title, paper: 9, stamp }),
    },
    calendar: outageCalendarFile(state, plan, stamp.getTime()),
    pictures: [
      ...(['crew', 'area'] as const).map((lanes) => outagePicture(state, fleet, plan, { lanes })),
      ...cards.map((card) => paperSvg(shopDrawing(card.joint, card))),
    ],
    dxf: dxf.map((text) => (typeof text === 'string' ? text : text.refused)),
    pdf: {
      cards: await cardsPdf(cards, 'A4'),
      template: template instanceof Uint8Array ? template : new Uint8Array(),
      order: await orderPdf(sent, 'A4'),
    },
    csv: papers.map(({ csv }) => csv),
    names: plan.planned.map(({ belt }) => belt),
  };
}

let plain: Outputs;
let hostile: Outputs;

beforeAll(async () => {
  plain = await outputs(demoBook('metric'));
  hostile = await outputs(hostileBook());
});

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
}

/** The elements of well-formed XML; anything else fails the test. */
function elements(xml: string): Element[] {
  const found: Element[] = [];
  const inside: string[] = [];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    found.push({ name, attributes, text: '' });
    inside.push('');
  });
  parser.on('text', (text) => {
    inside.push((inside.pop() ?? '') + text);
  });
  parser.on('closetag', ({ name, attributes }) => {
    found.push({ name: `/${name}`, attributes, text: inside.pop() ?? '' });
  });
  parser.on('error', (error) => {
    throw error;
  });
  // As a reader has it: bytes of UTF-8, in which half a character is none.
  parser.write(new TextDecoder('utf-8', { fatal: true }).decode(new TextEncoder().encode(xml))).close();
  return found;
}

const names = (xml: string): string[] => elements(xml).map(({ name }) => name);
const ended = (xml: string, element: string): Element[] => elements(xml).filter(({ name }) => name === `/${element}`);

describe.each(['book', 'order', 'outage', 'cards', 'sent', 'request'] as const)('the %s as .xlsx', (which) => {
  const parts = (from: Outputs): Readonly<Record<string, string>> =>
    Object.fromEntries(
      Object.entries(unzipSync(from.books[which]))
        .filter(([path]) => !path.endsWith('/'))
        .map(([path, bytes]) => [path, new TextDecoder().decode(bytes)]),
    );
  const sheets = (from: Outputs): string[] =>
    Object.entries(parts(from)).flatMap(([path, xml]) => (path.startsWith('xl/worksheets/sheet') ? [xml] : []));

  test('has parts of XML alone, of the kinds that it always has, and points to nothing outside itself', () => {
    const kinds = (from: Outputs): Set<string> =>
      new Set(Object.keys(parts(from)).map((path) => path.replaceAll(/\d+/g, '')));
    expect(kinds(hostile)).toEqual(kinds(plain));
    for (const [path, xml] of Object.entries(parts(hostile))) {
      expect(xml, path).not.toMatch(/TargetMode="External"/);
      elements(xml);
    }
  });

  test('has the formulas that it has without them', () => {
    /** Formulas by what they say, whatever rows they say it of: a search may part the same work otherwise. */
    const formulas = (from: Outputs): string[] =>
      sheets(from)
        .map((xml) => ended(xml, 'f').map(({ text }) => text.replaceAll(/\d+/g, '#')))
        // Of findings there are more; what leads from them is one formula, which rows share.
        .flatMap((texts) => (texts[0]?.startsWith('HYPERLINK') === true ? [...new Set(texts)] : texts));
    const known = new Set([...formulas(plain), '#+#']);
    expect(known.size > 1).toBe(which !== 'cards' && which !== 'request');
    expect(formulas(hostile).filter((text) => !known.has(text))).toEqual([]);
    if (which === 'outage') return;
    const own = which === 'book' ? hostileTexts.length : 0;
    expect(formulas(hostile)).toHaveLength(formulas(plain).length + own);
  });

  test('prints in its heads and feet no code but side, page and sheet', () => {
    for (const xml of sheets(hostile))
      for (const { name, text } of elements(xml))
        if (/^\/(odd|even|first)(Header|Footer)$/.test(name)) {
          expect(text.replaceAll('&&', '')).not.toMatch(/&(?![LCRPNA])/);
          expect(text.length).toBeLessThanOrEqual(255);
        }
  });

  test('names nothing that the program does not', () => {
    const defined = (from: Outputs): Set<string | undefined> =>
      new Set(
        elements(parts(from)['xl/workbook.xml'] ?? '').flatMap(({ name, attributes }) =>
          name === 'definedName' ? [attributes['name']] : [],
        ),
      );
    expect(defined(hostile)).toEqual(defined(plain));
  });

  // A request has its texts behind words of its own.
  test('holds texts as texts, read by another library', async () => {
    const file = new ExcelJS.Workbook();
    await file.xlsx.load(hostile.books[which].slice().buffer);
    let texts = 0;
    file.eachSheet((sheet) =>
      sheet.eachRow((row) =>
        row.eachCell(({ value }) => {
          if (typeof value === 'string' && (which === 'request' ? /[=+@<]/ : /^[=+@-]/).test(value)) texts += 1;
        }),
      ),
    );
    expect(texts).toBeGreaterThan(0);
  });
});

test('lists of orders have a row a line, and no field that a program would run', () => {
  expect(hostile.csv.length).toBeGreaterThan(0);
  for (const list of hostile.csv) {
    const rows = commaRows(list.replace('\uFEFF', ''));
    for (const row of rows) {
      expect(row).toHaveLength(rows[0]?.length ?? 0);
      for (const cell of row) expect(cell).not.toMatch(/^\s*[=+@-]|[\p{Cc}\u2028\u2029]/u);
    }
  }
});

test('a calendar has the lines of its events alone, each of at most 75 octets', () => {
  const lines = (text: string): string[] => text.replaceAll(/\r\n /g, '').split('\r\n');
  const properties = (text: string): string[] =>
    lines(text).map((line) => /^[A-Z-]*(?=[:;]|$)/.exec(line)?.[0] ?? line);
  const known = new Set(properties(plain.calendar));
  expect(properties(hostile.calendar).filter((name) => !known.has(name))).toEqual([]);
  expect(hostile.calendar.match(/^BEGIN:VEVENT\r$/gm)).toHaveLength(hostile.names.length);
  expect(hostile.calendar.replaceAll('\r\n', '')).not.toMatch(/[\u0000-\u001F\u007F\u0085\u2028\u2029]/);
  for (const line of hostile.calendar.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  const events = new ICAL.Component(ICAL.parse(hostile.calendar)).getAllSubcomponents('vevent');
  expect(events).toHaveLength(hostile.names.length);
  const bare = (text: string): string => text.replaceAll(/[\p{Cc}\p{Cs}\uFFFD\u2028\u2029\s]/gu, '');
  expect(events.map((event) => bare(String(event.getFirstPropertyValue('summary'))))).toEqual(
    hostile.names.map((name) => bare(`Belt ${name}: joint`)),
  );
});

test('pictures are drawings: no script, link, event or style of anybody else', () => {
  expect(hostile.pictures).toHaveLength(plain.pictures.length);
  const known = new Set(plain.pictures.flatMap(names));
  for (const picture of hostile.pictures) {
    expect(names(picture).filter((name) => !known.has(name))).toEqual([]);
    for (const { name, attributes } of elements(picture))
      for (const [attribute, value] of Object.entries(attributes)) {
        expect(attribute, name).not.toMatch(/^on|href$/i);
        if (attribute !== 'aria-label') expect(value).not.toMatch(/javascript:|url\((?!#)/i);
      }
  }
});

test('a DXF has the entities of its joint alone', () => {
  expect(hostile.dxf).toHaveLength(plain.dxf.length);
  hostile.dxf.forEach((text, index) => {
    const pairs = (file: string): string[][] =>
      file
        .replace(/\n$/, '')
        .split('\n')
        .reduce<string[][]>(
          (rows, line, at) =>
            at % 2 === 0 ? [...rows, [line]] : [...rows.slice(0, -1), [...(rows.at(-1) ?? []), line]],
          [],
        );
    const codes = (file: string): (string | undefined)[] => pairs(file).map(([code]) => code?.trim());
    expect(codes(text)).toEqual(codes(plain.dxf[index] ?? ''));
    for (const [code, value = ''] of pairs(text)) {
      expect(code).toMatch(/^ *\d+$/);
      expect(value).not.toMatch(/[\p{Cc}\u2028\u2029]|%%|\^(?! )/u);
    }
    const kinds = (file: string): (string | undefined)[] =>
      new DxfParser().parseSync(file)?.entities.map(({ type }) => type) ?? [];
    expect(kinds(text)).toEqual(kinds(plain.dxf[index] ?? ''));
  });
});

test.each(['cards', 'template', 'order'] as const)('the %s as PDF do nothing when they are opened', async (which) => {
  const file = await PDFDocument.load(hostile.pdf[which]);
  const actions = /^\/(JS|JavaScript|AA|OpenAction|A|URI|Launch|AcroForm|EmbeddedFiles|Names|RichMedia)$/;
  const keys: string[] = [];
  for (const [, object] of file.context.enumerateIndirectObjects()) {
    const dictionary = object instanceof PDFStream ? object.dict : object;
    if (dictionary instanceof PDFDict) keys.push(...dictionary.keys().map(String));
    if (dictionary instanceof PDFDict && dictionary.get(PDFName.of('Annots')) !== undefined)
      expect(dictionary.lookup(PDFName.of('Annots'), PDFArray).size()).toBe(0);
  }
  expect(keys.length).toBeGreaterThan(10);
  expect(keys.filter((key) => actions.test(key))).toEqual([]);
  for (const page of file.getPages()) {
    const node = page.node.Contents();
    const streams = node instanceof PDFArray ? node.asArray().map((one) => file.context.lookup(one)) : [node];
    for (const stream of streams) {
      if (!(stream instanceof PDFRawStream)) throw new Error('a page without a stream');
      const shown = new TextDecoder('latin1').decode(decodePDFRawStream(stream).decode());
      // Texts are written as digits, in which nothing can end them.
      expect(shown).not.toMatch(/[()]/);
    }
  }
});

test('the book holds texts that would be formulas', () => {
  const cells = hostile.state.sheets.flatMap(({ rows }) => rows.flatMap((row) => row.cells));
  expect(
    cells.filter((content) => typeof content === 'string' && /^'?[=+@-]/.test(content) && !isFormula(content)).length,
  ).toBeGreaterThan(50);
});
