import { counted } from '../units/phrases.ts';
import type { CardForm } from '../card/card-form.ts';
import { cardsPdf } from '../card/card-pdf.ts';
import { cardSheet } from '../card/card-rows.ts';
import { type JobCard, jobCard, noDrawing } from '../card/job-card.ts';
import { belts } from '../../sheets/belts/index.ts';
import { jointDxf } from '../drawing/joint-dxf.ts';
import { jointTemplate } from '../drawing/joint-template.ts';
import { paperSvg } from '../drawing/paper-svg.ts';
import { shopDrawing } from '../drawing/shop-drawing.ts';
import { cellName } from '../formula/address.ts';
import { laidBook } from '../xlsx/write/laid-book.ts';
import { type Given, optionWord } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { listBook, type ListBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, endingOf, replaces, writeWhole } from './output-file.ts';
import { UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

const endings = ['pdf', 'xlsx', 'svg', 'dxf'] as const;
type Ending = (typeof endings)[number];

/** What is asked for, checked before anything is read. */
interface Order {
  readonly input: string;
  /** By name, in the order asked for; undefined for all belts. */
  readonly belts: readonly string[] | undefined;
  readonly output: string;
  readonly ending: Ending;
  readonly template: boolean;
  readonly cutOnly: boolean;
  readonly form: CardForm;
  readonly paper: 'A4' | 'A3' | 'Letter' | undefined;
}

const papers = { a4: 'A4', a3: 'A3', letter: 'Letter' } as const;

function ordered(typed: Given): Order {
  const { words, options } = typed;
  const [template, cutOnly, short] = ['template', 'cut-only', 'short'].map((name) => options.has(name));
  const several = options.get('belt') ?? [];
  const all = options.has('all') || several.length > 0;
  const [input = '', second = '', third] = words;
  if (options.has('all') && several.length > 0)
    throw new UsageError('card: --all writes the cards of all belts, and --belt names some. Give one of the two');
  if (all && third !== undefined)
    throw new UsageError(
      `card: ${options.has('all') ? '--all writes the cards of all belts' : '--belt names the belts'}, so ` +
        `"${second}" ` +
        'is one argument too many. Help: help card',
    );
  if (!all && third === undefined)
    throw new UsageError(
      'card needs the name of a belt between IN.xlsx and the output, or --all for all belts. Help: help card',
    );
  const output = third ?? second;
  const ending = endingOf(output, endings);
  if (ending === undefined)
    throw new UsageError(
      `card: ${output} must end in ${endings.map((item) => `.${item}`).join(', ')}, which selects the format. ` +
        `Help: help card`,
    );
  const word = optionWord(typed, 'paper', ['a4', 'a3', 'letter']);
  const paper = word === undefined ? undefined : papers[word];
  if (template === true && ending !== 'pdf')
    throw new UsageError(`card: --template writes a .pdf; ${output} does not end in .pdf`);
  if (all && (template === true || ending === 'svg' || ending === 'dxf'))
    throw new UsageError(
      `card: --${options.has('all') ? 'all' : 'belt'} writes one .pdf or .xlsx of cards; write drawings and ` +
        'templates belt by belt',
    );
  if (short === true && (template === true || ending === 'svg' || ending === 'dxf'))
    throw new UsageError('card: --short applies to cards, as .pdf or .xlsx, and not to drawings and templates');
  if (cutOnly === true && template !== true && ending !== 'dxf')
    throw new UsageError('card: --cut-only applies to a .dxf, or a .pdf with --template');
  if (paper !== undefined && ending !== 'pdf')
    throw new UsageError(`card: --paper applies to a .pdf; ${output} does not end in .pdf`);
  if (paper === 'A3' && template !== true)
    throw new UsageError('card: cards are laid out on A4 or Letter; A3 is for --template');
  return {
    input,
    belts: options.has('all') ? undefined : several.length > 0 ? several : [second],
    form: short === true ? 'short' : 'long',
    output,
    ending,
    template: template === true,
    cutOnly: cutOnly === true,
    paper,
  };
}

/** The input that keeps a joint from being drawn, as the list has it. */
function placeOf({ book, places }: ListBook, record: number): string {
  const header =
    (['Width', 'Skew'] as const).find((name) => typeof book.read(belts.name, record, name) !== 'number') ??
    'Plate series';
  return places.of({
    sheet: belts.name,
    record,
    column: header,
    cell: cellName(belts.name, record, book.column(belts.name, header)),
  });
}

/** A file's content, or why there is none. */
async function content(
  card: JobCard,
  { ending, template, cutOnly, paper, form }: Order,
): Promise<Uint8Array | { readonly refused: string }> {
  const { joint, unit, belt, series, worst, invented } = card;
  const refused = noDrawing(card, (template || ending === 'dxf') && !cutOnly ? 'pattern' : 'drawing');
  if (joint === undefined || refused !== undefined) return { refused: refused ?? '' };
  const sheet = paper ?? (card.units === 'us' ? 'Letter' : 'A4');
  if (template) return jointTemplate(joint, { unit, belt, worst, invented, cutOnly, paper: sheet });
  if (ending === 'svg')
    return new TextEncoder().encode(paperSvg(shopDrawing(joint, { unit, belt, series, worst, invented })));
  if (ending === 'dxf') {
    const text = await jointDxf(joint, { unit, belt, worst, invented, cutOnly });
    return typeof text === 'string' ? new TextEncoder().encode(text) : text;
  }
  return cardsFile([card], ending, sheet === 'A3' ? 'A4' : sheet, form);
}

const cardsFile = (
  cards: readonly JobCard[],
  ending: Ending,
  paper: 'A4' | 'Letter',
  form: CardForm,
): Promise<Uint8Array> =>
  ending === 'xlsx'
    ? laidBook(
        cards.map((card) => cardSheet(card, form)),
        {
          title: cards.length === 1 ? `Job card of belt ${cards[0]?.belt ?? ''}` : 'Job cards',
          paper: paper === 'A4' ? 9 : 1,
        },
      )
    : cardsPdf(cards, paper, form);

const say = (...lines: readonly string[]): void => void process.stdout.write(visibleLines(lines));

function write({ input, output }: Order, inputs: readonly string[], bytes: Uint8Array, what: string): void {
  checkOutput(output, inputs, endings);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  say(`Wrote ${output} from ${input}: ${what}${replaced ? ', replacing the existing file' : ''}.`);
}

/** Writes what the crew takes to a belt. */
export async function run(typed: Given): Promise<number> {
  const order = ordered(typed);
  const options = listOptions(typed);
  const inputs = [order.input, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(order.output, inputs, endings);
  const list = listBook(order.input, options);
  const { book } = list;
  const [belt, another] = order.belts ?? [];
  if (belt === undefined || another !== undefined) return manyCards(order, list, inputs);
  const record = beltRecord(book, order.input, belt);
  const card = jobCard(book, record);
  const made = await content(card, order);
  if ('refused' in made) {
    process.stderr.write(
      visibleLines([`${order.output} was not written. Belt ${card.belt} (${placeOf(list, record)}): ${made.refused}`]),
    );
    return 1;
  }
  const what = order.template
    ? `1:1 template of the joint of belt ${card.belt}`
    : order.ending === 'svg' || order.ending === 'dxf'
      ? `joint of belt ${card.belt}`
      : `job card of belt ${card.belt}`;
  write(order, inputs, made, what);
  if (order.ending === 'svg' || order.ending === 'dxf' || order.template) return 0;
  for (const remark of card.remarks) say(`  ${remark}`);
  if (card.worst !== 'fits') say(`  Verdict of this belt: ${card.verdict}. The card gives the reasons.`);
  return 0;
}

/** One file of several cards; a belt whose joint can't be drawn has none, and is named. */
async function manyCards(order: Order, list: ListBook, inputs: readonly string[]): Promise<number> {
  const { book } = list;
  const key = book.column(belts.name, belts.key);
  const records =
    order.belts?.map((belt) => beltRecord(book, order.input, belt)) ??
    book.sheet(belts.name).rows.flatMap(({ cells }, record) => (String(cells[key] ?? '') === '' ? [] : [record]));
  const cards = records.map((record) => ({ record, card: jobCard(book, record) }));
  const drawn = cards.filter(({ card }) => card.joint !== undefined);
  const left = cards
    .filter(({ card }) => card.joint === undefined)
    .map(
      ({ record, card }) =>
        `No card of belt ${card.belt} (${placeOf(list, record)}): ${noDrawing(card, 'drawing') ?? ''}`,
    );
  if (drawn.length > 0)
    write(
      order,
      inputs,
      await cardsFile(
        drawn.map(({ card }) => card),
        order.ending,
        order.paper === 'Letter' || (order.paper === undefined && book.units === 'us') ? 'Letter' : 'A4',
        order.form,
      ),
      counted(drawn.length, 'job card'),
    );
  if (left.length === 0) return 0;
  process.stderr.write(visibleLines([...left, ...(drawn.length === 0 ? [`${order.output} was not written.`] : [])]));
  return 1;
}
