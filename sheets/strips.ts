import { declareSheet, needing } from '../src/sheet/declaration.ts';

/** What is laid into joints between the plates' teeth, as rolls a supplier sells. */
export const strips = declareSheet({
  name: 'Strips',
  purpose: 'Strip by the roll: what is laid into a joint between the plates',
  record: 'strip',
  key: 'Strip',
  columns: [
    { header: 'Strip', kind: 'text', doc: 'the name that plate series refer to', alsoCalled: ['strip name', 'material strip'] },
    { header: 'Supplier', kind: 'text', doc: 'who sells it', alsoCalled: ['vendor'] },
    { header: 'Roll length', kind: 'distance', above: 0, digits: 1, doc: 'strip on one roll', alsoCalled: ['length of roll', 'roll'] },
    { header: 'Roll price', kind: 'money', min: 0, digits: 2, doc: 'price of one roll', alsoCalled: ['price per roll', 'price'] },
    {
      header: 'Strip price', kind: 'moneyPerLength', digits: 4, doc: 'price of strip per short length',
      formula: needing('{Roll price}/({Roll length}*ShortPerLong)', ['{Roll price}', '{Roll length}']),
    },
    { header: 'Remark', kind: 'text', doc: 'free', alsoCalled: ['note', 'notes', 'remarks'] },
  ],
});
