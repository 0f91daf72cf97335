import { fleetOrder, chosenSupply } from '../../src/order/fleet-order.ts';
import { itemKey } from '../../src/order/search/order-list.ts';
import { settledOrder } from '../../src/order/settled-order.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import type { Solver } from '../../src/solver/program.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { type Cells, rowOf } from '../workbook/books.ts';

/** Orders of random rolls: every cut is placed again on the rolls that the order buys, that come and that are there. */

/** A book whose strips come on random rolls, and some of its belts. */
function rollBook(seed: number): { readonly book: Workbook; readonly records: readonly number[] } {
  const random = randomNumbers(seed);
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const demo = demoBook('metric');
  const names = ['Reed', 'Sedge', 'Marram', 'Samphire'];
  const offers = names.flatMap((name, place): Cells[] =>
    Array.from({ length: whole(1, 2) }, (_, other) => {
      const length = whole(4, 30);
      const price = whole(300, 600) * length;
      return {
        Article: `${name} ${other}`,
        'Sold by': ['Invented Supplier A', 'Invented Supplier B', 'Invented Trader D'][(place + other) % 3] ?? null,
        Kind: 'strip',
        Item: name,
        'Length in pack': length,
        Price: price / 100,
        'Break 2': whole(2, 4),
        'Price 2': Math.round(price * 0.9) / 100,
      };
    }),
  );
  const shelf = names.flatMap((name): Cells[] =>
    Array.from({ length: whole(0, 2) }, (_, other) => ({
      Bin: `${name} ${other}`,
      Kind: 'strip',
      Item: name,
      'On shelf': whole(0, 2),
      'On order': whole(0, 1),
      'Length each': whole(10, 200) / 10,
    })),
  );
  const reviewed = new Workbook(demo).named('ReviewDate');
  const today = typeof reviewed === 'number' ? reviewed : 0;
  const orders = names.map((name, place): Cells => ({
    'Order line': `9/${place + 1}`,
    Kind: 'strip',
    Item: name,
    Packs: whole(0, 2),
    'Length in pack': whole(10, 200) / 10,
    'Expected on': today + whole(0, 900),
  }));
  const book = new Workbook({
    ...demo,
    sheets: demo.sheets.map((sheet) =>
      sheet.name === 'Offers'
        ? { ...sheet, rows: offers.map((cells) => rowOf('Offers', cells)) }
        : sheet.name === 'Shelf'
          ? { ...sheet, rows: shelf.map((cells) => rowOf('Shelf', cells)) }
          : sheet.name === 'Orders'
            ? { ...sheet, rows: orders.map((cells) => rowOf('Orders', cells)) }
            : sheet,
    ),
  });
  const records = book.sheet('Belts').rows.flatMap((_, record) => (random() < 0.4 ? [record] : []));
  return { book, records };
}

/** What is wrong with a random order and its cuts. */
export async function replacedCuts(seed: number, solver: Solver): Promise<string[]> {
  const { book, records } = rollBook(seed);
  const asked = fleetOrder(book, { which: 'belts', records });
  const { order, supplied, plans } = await settledOrder(book, asked, solver, { seconds: 2 });
  const supply = chosenSupply(supplied);
  const wrong: string[] = [];
  const must = (holds: boolean, what: string): void => void (holds || wrong.push(`order ${seed}: ${what}`));
  const cents = (amount: number): number => Math.round(amount * 100);
  for (const { item, plan, question, cost, rollsBought } of plans) {
    const own = supply.purchases.filter((purchase) => itemKey(purchase.item) === itemKey(item));
    must(cents(cost) === own.reduce((sum, one) => sum + cents(one.cost), 0), `${item.name} costs ${cost} in the plan`);
    must(rollsBought === own.reduce((sum, one) => sum + one.packs, 0), `${item.name} has ${rollsBought} rolls`);
    const wanted = asked.joints.belts.flatMap(({ pieces }) =>
      pieces.filter((piece) => itemKey(piece.item) === itemKey(item)),
    );
    const left = new Map<number, number>();
    for (const { length, quantity } of wanted) left.set(length, (left.get(length) ?? 0) + quantity);
    const rolls = new Map<string, number>();
    for (const { item: of, name, length, quantity = 1, source } of asked.stock.rolls)
      if (itemKey(of) === itemKey(item)) rolls.set(`${source} ${name} ${length}`, quantity);
    for (const { packs, pack } of own) rolls.set(`bought ${pack}`, (rolls.get(`bought ${pack}`) ?? 0) + packs);
    for (const roll of plan.rolls) {
      const key = roll.source === 'bought' ? `bought ${roll.length}` : `${roll.source} ${roll.name} ${roll.length}`;
      must((rolls.get(key) ?? 0) > 0, `${item.name}: there is no further roll ${key}`);
      rolls.set(key, (rolls.get(key) ?? 0) - 1);
      const cut = roll.cuts.reduce((sum, { length }) => sum + length, 0) + (roll.cuts.length - 1) * question.sawLoss;
      must(cut <= roll.length + 1e-9, `${item.name}: ${cut} is cut from ${roll.length}`);
      const comes = asked.stock.rolls.find(({ name, item: of }) => name === roll.name && of.name === item.name)?.day;
      for (const { belt } of roll.source === 'on order' ? roll.cuts : []) {
        const { due } = asked.joints.belts.find((one) => one.belt === belt) ?? {};
        must(due === undefined || (comes ?? due) <= due, `${item.name} of ${belt} is due before ${roll.name} comes`);
      }
      for (const { length } of roll.cuts) left.set(length, (left.get(length) ?? 0) - 1);
    }
    for (const { length, quantity } of plan.uncut) left.set(length, (left.get(length) ?? 0) - quantity);
    must(
      [...left.values()].every((quantity) => quantity === 0),
      `${item.name}: pieces are lost or cut twice`,
    );
    const longest = Math.max(
      0,
      ...order.offered.offers.filter((one) => itemKey(one.item) === itemKey(item)).map(({ pack }) => pack),
    );
    must(
      plan.uncut.every(({ length }) => length > longest),
      `${item.name}: a piece is not cut that a roll is sold for`,
    );
  }
  const amounts = supply.orders.reduce((sum, { goods, charges }) => sum + cents(goods) + cents(charges), 0);
  must(cents(supply.total) === amounts, `the total is ${supply.total}, its parts ${amounts / 100}`);
  must(order === asked || !supply.proven, 'proven, though cutting asked for more than the lengths');
  book.destroy();
  return wrong;
}
