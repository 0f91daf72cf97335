import { declareSheet } from '../../src/sheet/declaration.ts';

/** What holds for the belts of an area together; an area without a row has no such limits. */
export const areas = declareSheet({
  name: 'Areas',
  purpose:
    'What holds for the belts of an area together in an outage: how many at once, and whether all stand with one',
  record: 'area',
  key: 'Area',
  columns: [
    { header: 'Area', kind: 'text', doc: "as the belts' own column Area calls it" },
    {
      header: 'Maximum jobs at once',
      formerly: 'Jobs at once',
      kind: 'count',
      min: 1,
      doc: 'jobs that may go on in it at the same time; any number when it is blank',
    },
    {
      header: 'Stops as one',
      formerly: 'Stands as a whole',
      kind: 'flag',
      choices: ['yes', 'no'],
      doc:
        'yes when its belts feed each other, so that all stand while there is work on one: ' +
        'its loss then counts once',
    },
    {
      header: 'Area capacity',
      kind: 'capacity',
      min: 0,
      digits: 0,
      doc:
        'what an area that stands as a whole would have carried in an hour; the greatest capacity of its belts ' +
        'with a job when it is blank',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
