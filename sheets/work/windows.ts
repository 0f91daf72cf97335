import { declareSheet } from '../../src/sheet/declaration.ts';

/** When belts may be stopped, a window a row. Times are those of the plant's clock. */
export const windows = declareSheet({
  name: 'Windows',
  purpose: "Shutdown windows: start and end on the plant's clock, for which area, at what production loss",
  record: 'window',
  key: 'Window',
  columns: [
    { header: 'Window', kind: 'text', doc: 'name of the window' },
    {
      header: 'Start',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'date and time from which belts may be stopped; a job must fit within one window',
    },
    { header: 'End', kind: 'date', timed: true, min: 1, doc: 'date and time by which the belts must run again' },
    {
      header: 'Area',
      formerly: 'Window for',
      kind: 'text',
      doc: 'the only area whose belts may be stopped in it; blank: all areas',
    },
    {
      header: 'Production loss',
      formerly: 'Loss share',
      kind: 'ratio',
      min: 0,
      max: 1,
      percent: true,
      digits: 0,
      doc: 'share of the lost production that counts in this window: 0 % if the plant is stopped anyway; blank: 100 %',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
