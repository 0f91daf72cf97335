import { readFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import { cardSheet } from '../../src/card/card-rows.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { solverRuntime } from '../../src/cli/planning-options.ts';
import { fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { orderBook } from '../../src/order/order-files.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { RefusedChange } from '../../src/workbook/refused-change.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { acceptImport } from '../../src/xlsx/import/acceptance.ts';
import { UnusableList } from '../../src/xlsx/import/import-model.ts';
import { proposeImport } from '../../src/xlsx/import/proposal.ts';
import { readBook, UnreadableFile } from '../../src/xlsx/read/read.ts';
import { laidBook } from '../../src/xlsx/write/laid-book.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { demoRows } from '../cli/lists.ts';
import { madeFile, strict } from './read/made-book.ts';
import { fullBook, stamp } from './write/exported-book.ts';

/** Eleven real files, damaged by chance and a seed, and what becomes of them. */

const committed = (path: string): Uint8Array => readFileSync(new URL(`../../${path}`, import.meta.url));

export interface RealFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

async function list(): Promise<Uint8Array> {
  const file = new ExcelJS.Workbook();
  const sheet = file.addWorksheet('Fleet');
  sheet.addRow(['Invented fleet']);
  sheet.addRows(demoRows().map((row) => [...row]));
  sheet.mergeCells('A1:D1');
  sheet.getCell('F4').value = { formula: 'E4*2', result: 20 };
  return new Uint8Array(await file.xlsx.writeBuffer());
}

/** Of other programs, of ours, by hand; small ones and large ones. */
export async function realFiles(): Promise<RealFile[]> {
  const demo = new Workbook(demoBook('us'));
  const order = fleetOrder(demo, { which: 'all' });
  const supplied = suppliedOrder(order, await loadSolver(() => solverRuntime));
  const cards = [0, 1, 2].map((record) => cardSheet(jobCard(demo, record)));
  return [
    ...(['belts-semicolons', 'belts-tern-quay', 'days-from-1904', 'shared-written-out'] as const).map((name) => ({
      name,
      bytes: committed(`test/xlsx/files/${name}.xlsx`),
    })),
    { name: 'export', bytes: committed('exports/tern-quay-metric.xlsx') },
    { name: 'full book', bytes: (await exportedBook(new Workbook(fullBook('us')), [], { stamp })).bytes },
    { name: 'order', bytes: await tableBook(demo, orderBook(demo.state, { order, supplied, plans: [] }, 'a demo')) },
    { name: 'cards', bytes: await laidBook(cards, { title: 'Cards', paper: 9 }) },
    { name: 'list', bytes: await list() },
    { name: 'open', bytes: committed('test/xlsx/lists/coloured-open.ods') },
    {
      name: 'strict',
      bytes: madeFile({
        namespaces: strict,
        strings: '<si><t>Belt</t></si><si><r><t>Width </t></r><r><t>(in)</t></r></si><si><t>B1</t></si>',
        styles: '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>',
        names: '<definedName name="Friction">Sheet1!$B$2</definedName>',
        sheets: [
          {
            rows:
              '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>' +
              '<row r="2"><c r="A2" t="s"><v>2</v></c><c r="B2"><f t="shared" si="0" ' +
              'ref="B2:B3">6*4</f><v>24</v></c></row>' +
              '<row r="3"><c r="A3" t="inlineStr"><is><t>B2</t></is></c><c r="B3"><f t="shared" ' +
              'si="0"/><v>24</v></c></row>',
            after: '<mergeCells count="1"><mergeCell ref="D1:E1"/></mergeCells>',
          },
        ],
      }),
    },
  ];
}

type Chance = () => number;

const below = (chance: Chance, end: number): number => Math.floor(chance() * end);
const oneOf = <Item>(chance: Chance, items: readonly [Item, ...Item[]]): Item =>
  items[below(chance, items.length)] ?? items[0];

/** Bytes changed, taken out, doubled or cut off anywhere in the archive. */
function damagedBytes(bytes: Uint8Array, chance: Chance): Uint8Array {
  const at = below(chance, bytes.length);
  const length = 1 + below(chance, 64);
  const [head, middle, tail] = [bytes.subarray(0, at), bytes.subarray(at, at + length), bytes.subarray(at + length)];
  switch (below(chance, 4)) {
    case 0:
      return Uint8Array.from(bytes, (byte, place) => (place >= at && place < at + length ? below(chance, 256) : byte));
    case 1:
      return new Uint8Array([...head, ...tail]);
    case 2:
      return new Uint8Array([...head, ...middle, ...middle, ...tail]);
    default:
      return bytes.slice(0, at);
  }
}

/** What an attribute or a text of a part may turn into. */
const strangers = [
  '',
  '-1',
  '0',
  '1e308',
  'NaN',
  '4294967296',
  '99999999999999999999',
  'XFD1048576',
  'A0',
  'A1:XFD1048576',
  '$A$1',
  'true',
  '../../x',
  'http://nowhere.invalid/',
  '\u0000',
  '&#x0;',
  '&amp;',
  '<',
  '_x0000_',
  '\uD800',
  'x'.repeat(40_000),
  '='.repeat(9000),
  '('.repeat(2000),
  '1+'.repeat(5000) + '1',
  '"',
  ']]>',
  'SUM(',
  '#REF!',
  '1/0',
  '\u202e',
] as const;

/** A part's text with an element, an attribute or a number of it otherwise. */
function damagedText(text: string, chance: Chance): string {
  const spot = (pattern: RegExp): RegExpExecArray | undefined => {
    const from = below(chance, text.length);
    pattern.lastIndex = from;
    return pattern.exec(text) ?? undefined;
  };
  const replaced = (found: RegExpExecArray | undefined, by: string): string =>
    found === undefined ? text : text.slice(0, found.index) + by + text.slice(found.index + found[0].length);
  switch (below(chance, 7)) {
    case 0:
      return replaced(spot(/(?<==")[^"]*(?=")/g), oneOf(chance, strangers));
    case 1:
      return replaced(spot(/(?<=>)[^<]+(?=<)/g), oneOf(chance, strangers));
    case 2:
      return replaced(spot(/<[^>]*>/g), '');
    case 3: {
      const found = spot(/<(\w+)[^>]*>[^<]*<\/\1>|<\w[^>]*\/>/g);
      return replaced(found, (found?.[0] ?? '').repeat(1 + below(chance, 300)));
    }
    case 4:
      return replaced(spot(/\d+/g), String(below(chance, 2 ** 31)));
    case 5:
      return replaced(
        spot(/<\/?\w+/g),
        oneOf(chance, ['<c', '</c', '<row', '</sheetData', '<f', '<is', '<x:y', '<!--', '<![CDATA[', '<?']),
      );
    default:
      return text.slice(0, below(chance, text.length));
  }
}

function damagedParts(bytes: Uint8Array, chance: Chance): Uint8Array {
  const parts = unzipSync(bytes);
  const paths = Object.keys(parts).filter((path) => !path.endsWith('/'));
  for (let changes = 1 + below(chance, 3); changes > 0; changes -= 1) {
    const path = paths[below(chance, paths.length)] ?? '';
    const part = parts[path];
    if (part === undefined) continue;
    const what = chance();
    if (what < 0.04) delete parts[path];
    else if (what < 0.08) parts[paths[below(chance, paths.length)] ?? path] = part;
    else parts[path] = new TextEncoder().encode(damagedText(new TextDecoder().decode(part), chance));
  }
  return zipSync(parts, { level: 1 });
}

/** The mutant of a number: of which file, and damaged how, follows from it and the seed alone. */
function mutant(files: readonly RealFile[], seed: number, number: number): RealFile {
  const chance = randomNumbers(seed + number);
  const file = files[number % files.length];
  if (file === undefined) throw new Error('there are no files to damage');
  const damage = chance() < 0.25 ? damagedBytes : damagedParts;
  return { name: `${file.name}, seed ${seed}, mutant ${number}`, bytes: damage(file.bytes, chance) };
}

/** A refusal that a planner can read: a sentence, with nothing of a program's insides in it. */
const isSentence = (text: string): boolean =>
  /^["\p{Lu}\p{N}]/u.test(text) &&
  /[.!?"]$/.test(text.trimEnd()) &&
  text.length < 1200 &&
  // What stands between quotes is the file's.
  !/undefined|NaN|\[object|\bat \w+ \(/.test(text.replaceAll(/"[^"]*"/g, ''));

/** Reads a file, takes it over and works the book out, as the page and the command line do. */
export function outcome(bytes: Uint8Array): string {
  try {
    const raw = readBook(bytes);
    const { state } = acceptImport(raw, proposeImport(raw), emptyBook('metric'));
    new Workbook(state).destroy();
    return 'read';
  } catch (error) {
    if (!(error instanceof Error)) return `wrong: thrown is ${String(error)}`;
    if (!(error instanceof UnreadableFile || error instanceof UnusableList || error instanceof RefusedChange))
      return `wrong: a fault, ${error.stack ?? error.message}`;
    return isSentence(error.message) ? 'refused' : `wrong: refused without a sentence, ${error.message}`;
  }
}

/** The mutants of a seed, by their numbers. */
export async function mutantCases(
  seed: number,
): Promise<{ readonly named: (number: number) => string; readonly tried: (number: number) => string }> {
  const files = await realFiles();
  return {
    named: (number) => mutant(files, seed, number).name,
    tried: (number) => outcome(mutant(files, seed, number).bytes),
  };
}
