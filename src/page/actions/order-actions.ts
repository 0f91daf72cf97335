import { actionList } from './action.ts';
import { selectedBelts } from '../shown-belt.ts';

export const orderActions = actionList([
  {
    id: 'order-list',
    group: 'Book',
    key: 'Alt+Shift+Q',
    name: 'Order list …',
    doc:
      'what to buy for the joints and from whom, what to keep on the shelf, how to cut the rolls, how few plate ' +
      'series would do',
    run(desk) {
      const selected = selectedBelts(desk);
      import('../order/order-dialog.ts').then(
        ({ showOrder }) => showOrder(desk, selected),
        (error: unknown) =>
          desk.say(
            `The order list could not be loaded: ${error instanceof Error ? error.message : String(error)}`,
            'problem',
          ),
      );
    },
  },
]);
