import { laterPrices } from '../../sheets/buying/offers.ts';
import type { LaidCell, LaidSheet, NumberLook } from '../sheet/laid-sheet.ts';
import { inCents } from '../order/search/offers.ts';
import { isoDate } from '../units/dates.ts';
import type { AuditRow } from './audit.ts';
import {
  amountLook,
  countLook,
  dayLook,
  formula,
  FormRows,
  moneyLook,
  number,
  rateLook,
  shareLook,
  strong,
  text,
} from './form-rows.ts';
import type { DocumentLine, OrderDocument } from './order-document.ts';
import { orderKeyText } from './order-key.ts';
import { chargeNames, charges } from './order-charges.ts';
import { lineText, orderHead, orderNotes, orderTitle } from './order-words.ts';

/**
 * An order to one supplier as a workbook: the order, and the audit sheet that its packs, prices, freight and rate come
 * from. The audit names this supplier's own offers only: whoever gets the order must not read others' prices in it.
 */

const names = { order: 'Order', audit: 'Audit' } as const;

const orderTitles = [
  'No.',
  'Your article',
  'Our article',
  'Description',
  'Deliver by',
  'Packs',
  'Pack of',
  'Unit',
  'Price',
  'Amount',
] as const;
const orderWidths = [6, 16, 20, 27, 12, 8, 9, 8, 12, 13, 400];
const across = orderTitles.length;
const ends: ReadonlySet<string> = new Set(['Packs', 'Pack of', 'Price', 'Amount']);
const place = { delivery: 4, packs: 5, price: 8, amount: 9 } as const;

const basisTitles = [
  'No.',
  'Description',
  'To cover',
  'Pack of',
  'Whole packs',
  'Minimum packs',
  'Packs on top',
  'Packs',
  'Price 1',
  ...laterPrices.flatMap((tier) => [`Break ${tier}`, `Price ${tier}`]),
  'Price',
] as const;
const basis = { cover: 2, pack: 3, whole: 4, minimum: 5, extra: 6, packs: 7, first: 8, price: 15 } as const;
const auditWidths = [16, 30, ...Array.from({ length: basisTitles.length - 2 }, () => 10)];

/** Where the order finds what it is worked out from. */
interface AuditCells {
  readonly form: FormRows;
  readonly rate: string;
  readonly charge: (name: keyof typeof chargeNames) => string;
  readonly line: (index: number, column: 'packs' | 'price' | 'pack') => string;
}

const shares: ReadonlySet<string> = new Set(['firstShare', 'secondShare', 'taxRate']);

const packLook = ({ unit }: DocumentLine): NumberLook => (unit === 'pieces' ? countLook : amountLook);

/** A line's packs and price, from what it has to cover and the offer. */
function basisRow(form: FormRows, line: DocumentLine, row: number): LaidCell[] {
  const at = (column: keyof typeof basis): string => form.at(basis[column], row);
  const breaks = line.offer?.breaks ?? [{ from: 1, price: line.price }];
  const minimum = line.offer?.minimumPacks ?? 1;
  const tiers = laterPrices.map((_, index) => breaks[index + 1]);
  const priced = tiers.reduce((before, _, index) => {
    const [from, price] = [basis.first + 1 + 2 * index, basis.first + 2 + 2 * index].map((one) => form.at(one, row));
    return `IF(AND(ISNUMBER(${from}),${at('packs')}>=${from}),${price},${before})`;
  }, at('first'));
  return [
    text(String(line.number)),
    text(lineText(line)),
    number(line.cover, amountLook),
    number(line.pack, packLook(line)),
    number(formula(`ROUNDUP(ROUND(${at('cover')}/${at('pack')},9),0)`, line.wholePacks), countLook),
    number(minimum, countLook),
    number(line.packs - Math.max(line.wholePacks, minimum), countLook),
    number(formula(`MAX(${at('whole')},${at('minimum')})+${at('extra')}`, line.packs), countLook),
    number(breaks[0]?.price ?? line.price, moneyLook),
    ...tiers.flatMap((tier) => [number(tier?.from ?? null, countLook), number(tier?.price ?? null, moneyLook)]),
    number(formula(priced, line.price), moneyLook),
  ];
}

function auditPairs(form: FormRows, rows: readonly AuditRow[]): void {
  for (const [name, value] of rows) form.add(strong(name), text(value, { span: basisTitles.length - 1 }));
}

function auditCells(document: OrderDocument, scope: readonly AuditRow[]): AuditCells {
  const { order, bookCurrency, lines } = document;
  const form = new FormRows(names.audit, basisTitles.length);
  form.whole(`Audit of order ${document.number}`, 'title');
  auditPairs(form, scope);
  form.whole('Exchange rate', 'heading');
  const rateRow = form.add(
    strong(order.currency),
    text(`one ${order.currency} in ${bookCurrency}`),
    number(order.rate, rateLook),
    text(
      [order.day === undefined ? '' : isoDate(order.day), order.source].filter((part) => part !== '').join(', ') ||
        (order.currency === bookCurrency ? "the book's own currency" : 'no day or source is given'),
      { span: basisTitles.length - 3 },
    ),
  );
  form.whole(`What ${order.supplier} charges, in ${order.currency}`, 'heading');
  const values = charges(document);
  const chargeRows = new Map<string, number>();
  for (const [key, name] of Object.entries(chargeNames)) {
    const value = values[key as keyof typeof chargeNames];
    chargeRows.set(
      key,
      form.add(
        strong(name),
        text(''),
        number(value ?? null, shares.has(key) ? shareLook : key === 'deliveries' ? countLook : moneyLook),
      ),
    );
  }
  form.whole('Where packs and prices come from', 'heading');
  form.head(basisTitles, new Set(basisTitles.slice(2)));
  const lineRows = lines.map((line) => form.add(...basisRow(form, line, form.rows.length + 1)));
  return {
    form,
    rate: form.from(2, rateRow),
    charge: (name) => form.from(2, chargeRows.get(name) ?? 0),
    line: (index, column) => form.from(basis[column], lineRows[index] ?? 0),
  };
}

/** Two names and values beside each other a row. */
function headRows(form: FormRows, document: OrderDocument): void {
  const head = orderHead(document);
  for (let index = 0; index < head.length; index += 2) {
    const [left, right] = head.slice(index, index + 2);
    form.add(
      text(left?.[0] ?? '', { span: 2 }),
      strong(left?.[1] ?? '', { span: 2 }),
      text(right?.[0] ?? '', { span: 2 }),
      strong(right?.[1] ?? '', { span: 4 }),
    );
  }
}

function lineRows(
  form: FormRows,
  { lines, number: order, day, units, order: { supplier } }: OrderDocument,
  audit: AuditCells,
): readonly [number, number] {
  const first = form.rows.length + 1;
  lines.forEach((line, index) => {
    const row = form.rows.length + 1;
    form.add(
      text(String(line.number)),
      text(line.article),
      text(line.ownArticle),
      text(line.days.late > 0 ? `${lineText(line)} (urgent)` : lineText(line)),
      number(line.days.delivery, dayLook),
      number(formula(audit.line(index, 'packs'), line.packs), countLook),
      number(formula(audit.line(index, 'pack'), line.pack), packLook(line)),
      text(line.unit),
      number(formula(audit.line(index, 'price'), line.price), moneyLook),
      number(formula(`ROUND(${form.at(place.packs, row)}*${form.at(place.price, row)},2)`, line.amount), moneyLook),
      text(
        orderKeyText({
          order,
          line: line.number,
          supplier,
          article: line.ownArticle,
          kind: line.item.kind,
          name: line.item.name,
          size: line.item.length ?? null,
          ordered: day,
          expected: line.days.delivery,
          units,
        }),
      ),
    );
  });
  return [first, form.rows.length];
}

/** Whether a cell holds a limit that goods reach; a hair below counts. */
const reaches = (goods: string, limit: string): string => `AND(ISNUMBER(${limit}),${goods}>=N(${limit})*(1-10^-9))`;

function sumRows(
  form: FormRows,
  document: OrderDocument,
  [first, last]: readonly [number, number],
  audit: AuditCells,
): string {
  const { order, lineTotal, site, tax, payable } = document;
  const sum = (name: string, made: string, value: number, bold?: true): string => {
    const row = form.add(
      text('', { span: 5 }),
      bold === true ? strong(name, { span: 4 }) : text(name, { span: 4 }),
      number(formula(made, value), moneyLook, bold === true ? { bold } : {}),
    );
    return form.at(place.amount, row);
  };
  const goods = sum('Goods', `SUM(${form.at(place.amount, first)}:${form.at(place.amount, last)})`, lineTotal);
  const share =
    `IF(${reaches(goods, audit.charge('secondFrom'))},N(${audit.charge('secondShare')}),` +
    `IF(${reaches(goods, audit.charge('firstFrom'))},N(${audit.charge('firstShare')}),0))`;
  const discount = sum('Discount', `-ROUND(${goods}*${share},2)`, order.discount === 0 ? 0 : -order.discount);
  const surcharge = sum(
    'Small-order surcharge',
    `IF(OR(${reaches(goods, audit.charge('surchargeBelow'))},NOT(ISNUMBER(${audit.charge('surchargeBelow')}))),0,` +
      `N(${audit.charge('surcharge')}))`,
    order.surcharge,
  );
  const freight = sum(
    'Freight',
    `IF(${reaches(goods, audit.charge('freightFreeFrom'))},0,` +
      `ROUND(${audit.charge('deliveries')}*${audit.charge('freight')},2))`,
    order.freight,
  );
  const net = sum('Net total', `ROUND(${goods}+${discount}+${surcharge}+${freight},2)`, order.total);
  const taxed = site.tax === '' ? '0' : sum(site.tax, `ROUND(${net}*${audit.charge('taxRate')},2)`, tax);
  sum(`Total ${order.currency}`, `ROUND(${net}+${taxed},2)`, payable, true);
  return net;
}

/** What the order is in the book's own money, and what was left out of it. */
function auditEnd(
  { form, rate }: AuditCells,
  { order, bookCurrency }: OrderDocument,
  net: string,
  remarks: readonly AuditRow[],
): void {
  form.whole(`In ${bookCurrency}`, 'heading');
  form.add(
    strong('Net total'),
    text('without tax, rounded once; the order list rounds line by line'),
    number(formula(`ROUND(${names.order}!${net}*${rate},2)`, inCents(order.total * order.rate)), moneyLook),
  );
  form.whole('Remarks', 'heading');
  if (remarks.length === 0) form.whole('none');
  auditPairs(form, remarks);
}

/** The sheets of an order's file: the order first. `scope` and `remarks` are what its audit says. */
export function orderForm(
  document: OrderDocument,
  scope: readonly AuditRow[],
  remarks: readonly AuditRow[],
): LaidSheet[] {
  const audit = auditCells(document, scope);
  const form = new FormRows(names.order, across);
  form.whole(`${orderTitle} ${document.number}`, 'title');
  headRows(form, document);
  form.blank();
  form.head(orderTitles, ends);
  const lines = lineRows(form, document, audit);
  const net = sumRows(form, document, lines, audit);
  auditEnd(audit, document, net, remarks);
  form.blank();
  for (const note of orderNotes(document)) form.whole(note);
  return [
    form.sheet({ widths: orderWidths, hiddenColumns: 1 }),
    audit.form.sheet({ widths: auditWidths, landscape: true }),
  ];
}
