import { columns, declareSheet } from '../../src/sheet/declaration.ts';
import { withNames } from '../also-called.ts';
import { supplierRateColumn } from './supplier-rate.ts';
import { stripNames } from './strip-names.ts';

const inputs = columns([
  { header: 'Strip', kind: 'text', doc: 'name that plate series refer to' },
  { header: 'Supplier', kind: 'text', doc: 'supplier of the strip' },
  { header: 'Roll length', kind: 'distance', above: 0, digits: 1, doc: 'strip on one roll' },
  { header: 'Roll price', kind: 'money', min: 0, digits: 2, doc: "price of one roll, in the supplier's currency" },
]);

/** What is laid into joints between the plates' teeth, as rolls a supplier sells. */
export const strips = declareSheet({
  name: 'Strips',
  purpose: 'Strip by the roll, laid into a joint between the plates',
  record: 'strip',
  key: 'Strip',
  columns: withNames(
    [
      ...inputs,
      {
        header: 'Strip price',
        kind: 'moneyPerLength',
        digits: 4,
        doc: "price of strip per short length, in the book's money",
        formula: '{Roll price}/({Roll length}*ShortPerLong)*{Supplier rate}',
      },
      supplierRateColumn,
      { header: 'Remark', kind: 'text', doc: 'free' },
    ],
    stripNames,
  ),
});
