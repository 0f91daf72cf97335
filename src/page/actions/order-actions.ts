import { actionList } from './action.ts';
import { selectedBelts } from '../shown-belt.ts';
import { notLoaded } from '../not-loaded.ts';

export const orderActions = actionList([
  {
    id: 'order-list',
    group: 'Book',
    key: 'Alt+Shift+Q',
    name: 'Order list …',
    doc:
      'lists what to buy for the joints and from whom, what to keep in stock, how to cut the rolls, and the ' +
      'fewest plate series that cover the fleet',
    run(desk) {
      const selected = selectedBelts(desk);
      import('../order/order-dialog.ts').then(
        ({ showOrder }) => showOrder(desk, selected),
        (error: unknown) => desk.say(notLoaded('The order list', error), 'problem'),
      );
    },
  },
]);
