import { declareSheet } from '../../src/sheet/declaration.ts';

/** Limits on the belts of an area; an area without a row has none. */
export const areas = declareSheet({
  name: 'Areas',
  purpose:
    'Limits on the belts of an area during an outage: how many jobs at once, and whether all its belts stop together',
  record: 'area',
  key: 'Area',
  columns: [
    { header: 'Area', kind: 'text', doc: 'the area, as named in the column Area of Belts' },
    {
      header: 'Maximum jobs at once',
      formerly: 'Jobs at once',
      kind: 'count',
      min: 1,
      doc: 'maximum number of jobs in the area at the same time; blank: no limit',
    },
    {
      header: 'Stops as one',
      formerly: 'Stands as a whole',
      kind: 'flag',
      choices: ['yes', 'no'],
      doc: 'yes if its belts feed each other: all are stopped while one is worked on, and the loss counts once',
    },
    {
      header: 'Area capacity',
      kind: 'capacity',
      min: 0,
      digits: 0,
      doc:
        'capacity lost while an area that stops as one is stopped; blank: the maximum capacity of its belts ' +
        'that have a job',
    },
    { header: 'Cost centre', kind: 'text', doc: 'cost centre that pays for its joints; default: that of the site' },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
