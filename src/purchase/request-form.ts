import type { LaidCell, LaidSheet } from '../sheet/laid-sheet.ts';
import { isoDate } from '../units/dates.ts';
import { amountLook, answered, countLook, dayLook, FormRows, moneyLook, number, strong, text } from './form-rows.ts';
import { askedColumns, askedOnce, type AskedCell, keyText, requestSheet } from './request-columns.ts';
import type { RequestDocument, RequestLine } from './request-document.ts';

/** A request for quotation as a sheet that is locked but for its answers. */

export const requestTitle = 'Request for quotation';

const toldTitles = ['No.', 'Item', 'Quantity', 'Unit', 'Wanted on', 'Last pack', 'Last price'] as const;
const toldWidths = [9, 24, 9, 8, 11, 8, 10];
const titles = [...toldTitles, ...askedColumns.map(({ title }) => title)];
const across = titles.length;

/** Where answers stand, counted from 1: those of lines from a column on, the key behind them, those of the whole. */
export const titleRow = { first: toldTitles.length + 1, key: titles.length + 1, answer: 3 } as const;

const ends: ReadonlySet<string> = new Set(['Quantity', 'Wanted on', 'Last pack', 'Last price']);

export const requestFileName = ({ address, day }: RequestDocument): string =>
  `${requestTitle} ${isoDate(day)} ${address.name}`;

/** What stands in a cell for an answer before it is given: pack and breaks as they were offered last. */
function before({ to }: AskedCell, { articleNumber, pack, breaks }: RequestLine): string | number | null {
  if (to === 'pack') return pack ?? null;
  if (to === 'Article number') return articleNumber === '' ? null : articleNumber;
  const tier = /^Break (\d)$/.exec(to)?.[1];
  return tier === undefined ? null : (breaks[Number(tier) - 2] ?? null);
}

function lineCells(line: RequestLine, { address, currency, units }: RequestDocument): LaidCell[] {
  const { item } = line;
  const pieces = line.unit === 'pieces';
  return [
    text(String(line.number)),
    text(line.description),
    number(pieces ? Math.ceil(line.quantity - 1e-9) : line.quantity, pieces ? countLook : amountLook),
    text(line.unit),
    line.wanted === undefined ? text('stock', { align: 'end' }) : number(line.wanted, dayLook),
    number(line.pack ?? null, pieces ? countLook : amountLook),
    number(line.price ?? null, moneyLook),
    ...askedColumns.map((asked) =>
      asked.to === 'Bolts included' && item.kind !== 'plates'
        ? text('')
        : answered(asked.answer, before(asked, line), asked.look),
    ),
    text(
      keyText({
        supplier: address.name,
        currency,
        article: line.article,
        kind: item.kind,
        name: item.name,
        size: item.length ?? null,
        units,
      }),
    ),
  ];
}

function head(form: FormRows, { site, address, day, currency }: RequestDocument): void {
  const pairs: readonly (readonly [string, string])[] = [
    ['Date', isoDate(day)],
    ['Currency', `${currency}, without tax`],
    ['From', [site.company, site.address].filter((part) => part !== '').join(', ')],
    ['To', [address.name, address.address].filter((part) => part !== '').join(', ')],
    ['Contact', site.contact],
    ['Deliver to', site.deliverTo],
  ];
  for (let index = 0; index < pairs.length; index += 2) {
    const [left, right] = pairs.slice(index, index + 2);
    form.add(
      text(left?.[0] ?? ''),
      strong(left?.[1] ?? '', { span: 5 }),
      text(right?.[0] ?? '', { span: 2 }),
      strong(right?.[1] ?? '', { span: across - 8 }),
    );
  }
}

/** Cells that are not answered are locked without a password: it keeps from slips, not from will. */
export function requestForm(document: RequestDocument): LaidSheet {
  const form = new FormRows(requestSheet, across);
  form.whole(requestTitle, 'title');
  head(form, document);
  form.whole(
    'Fill in the yellow cells and send this file back. A line without a price counts as not offered. Prices hold for ' +
      'all packs of a line from the number of packs given.',
  );
  for (const asked of askedOnce)
    form.add(
      strong(asked.title, { span: 2 }),
      { ...answered(asked.answer, null, asked.look), span: 3 },
      text('', { span: across - 5 }),
    );
  form.head(titles, ends);
  for (const line of document.lines) form.add(...lineCells(line, document));
  if (document.invented) form.whole('Invented figures: not a request to anybody.');
  return form.sheet({
    widths: [...toldWidths, ...askedColumns.map(({ width }) => width), 200],
    locked: true,
    hiddenColumns: 1,
    landscape: true,
  });
}
