import { declareSheet } from '../../src/sheet/declaration.ts';

/** The crews of an outage, a crew a row. */
export const crews = declareSheet({
  name: 'Crews',
  purpose: 'Crews for an outage: how many people, in which area, at what times',
  record: 'crew',
  key: 'Crew',
  columns: [
    { header: 'Crew', kind: 'text', doc: 'name of the crew' },
    { header: 'People', kind: 'count', min: 1, max: 50, doc: 'people who work on one joint together; blank: CrewSize' },
    { header: 'Works in', kind: 'text', doc: 'the only area it works in; blank: all areas' },
    {
      header: 'Shift from',
      kind: 'hours',
      min: 0,
      max: 24,
      digits: 2,
      doc: 'hour of the day at which the shift begins, for example 6 or 22.5; both blank: the whole day',
    },
    {
      header: 'Shift to',
      kind: 'hours',
      min: 0,
      max: 24,
      digits: 2,
      doc: 'hour of the day at which the shift ends; an hour before its beginning means the next day',
    },
    {
      header: 'Available from',
      formerly: 'There from',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'date and time from which the crew is available; blank: from the start',
    },
    {
      header: 'Available until',
      formerly: 'There to',
      kind: 'date',
      timed: true,
      min: 1,
      doc:
        'date and time until which the crew is available; a date without a time means the beginning of that day; ' +
        'blank: to the end',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
