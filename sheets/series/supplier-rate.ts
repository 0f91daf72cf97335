import type { Column } from '../../src/sheet/declaration.ts';

/** What a supplier's prices are multiplied with for the book's money: 1 where the sheet Suppliers does not list it. */
export const supplierRateColumn: Column<'Supplier rate'> = {
  header: 'Supplier rate',
  kind: 'number',
  digits: 4,
  background: true,
  doc: "value of one unit of its supplier's currency in the book's money; 1 for one that Suppliers does not list",
  formula:
    'IF(LEN({Supplier})=0,1,IF(COUNTIFS({Suppliers.Supplier},{Supplier})=0,1,' +
    'INDEX({Suppliers.Rate used},MATCH({Supplier},{Suppliers.Supplier},0))))',
};
