import { declareSheet } from '../../src/sheet/declaration.ts';

/** Who works in an outage, a crew a row. */
export const crews = declareSheet({
  name: 'Crews',
  purpose: 'Who works in an outage: crews, how many people, in which area, when',
  record: 'crew',
  key: 'Crew',
  columns: [
    { header: 'Crew', kind: 'text', doc: 'its name' },
    {
      header: 'People',
      kind: 'count',
      min: 1,
      max: 50,
      doc: 'who work on one joint together; CrewSize when it is blank',
    },
    { header: 'Works in', kind: 'text', doc: 'the only area it works in; all of them when it is blank' },
    {
      header: 'Shift from',
      kind: 'hours',
      min: 0,
      max: 24,
      digits: 2,
      doc: 'hour of the day at which it begins, as 6 or 22.5; the whole day when both are blank',
    },
    {
      header: 'Shift to',
      kind: 'hours',
      min: 0,
      max: 24,
      digits: 2,
      doc: 'hour at which it ends; an earlier one than it begins at is that of the next day',
    },
    {
      header: 'Available from',
      formerly: 'There from',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'before which it is not there; always there when it is blank',
    },
    {
      header: 'Available until',
      formerly: 'There to',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'after which it is not there any more; a day without a time is the beginning of that day',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
