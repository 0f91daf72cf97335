import { declareSheet } from '../../src/sheet/declaration.ts';

/** When belts may stand, a window a row. Times are those of the plant's clock. */
export const windows = declareSheet({
  name: 'Windows',
  purpose: "When belts may stand: from when to when on the plant's clock, in which area, at what loss",
  record: 'window',
  key: 'Window',
  columns: [
    { header: 'Window', kind: 'text', doc: 'its name' },
    {
      header: 'Start',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'from when belts may stand; a job lies wholly within one window',
    },
    { header: 'End', kind: 'date', timed: true, min: 1, doc: 'when they must run again' },
    {
      header: 'Area',
      formerly: 'Window for',
      kind: 'text',
      doc: 'the only area whose belts may stand in it; all of them when it is blank',
    },
    {
      header: 'Production loss',
      formerly: 'Loss share',
      kind: 'ratio',
      min: 0,
      max: 1,
      percent: true,
      digits: 0,
      doc: 'share of the lost production that counts in it: none while the plant stands anyhow, all when it is blank',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
