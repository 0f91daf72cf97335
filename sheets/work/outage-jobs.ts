import { declareSheet } from '../../src/sheet/declaration.ts';

/** What is special about the work on a belt in an outage; a belt without a row is planned as any other. */
export const outageJobs = declareSheet({
  name: 'Outage jobs',
  purpose: "What is special about a belt's work in an outage: what it waits for, how many crews, which windows",
  record: 'outage job',
  key: 'Belt',
  partOf: { sheet: 'Belts', header: 'Belt' },
  columns: [
    { header: 'Belt', kind: 'text', choices: { sheet: 'Belts', header: 'Belt' }, doc: 'whose joints are made' },
    {
      header: 'After',
      kind: 'text',
      choices: { sheet: 'Belts', header: 'Belt' },
      several: true,
      doc: 'belts whose joints must be made before, with commas between',
    },
    {
      header: 'Crews at once',
      kind: 'count',
      min: 1,
      max: 10,
      doc: 'crews that work on it together; one when it is blank',
    },
    {
      header: 'Allowed windows',
      formerly: 'Only in',
      kind: 'text',
      choices: { sheet: 'Windows', header: 'Window' },
      several: true,
      doc: 'windows that it may lie in, with commas between; any of its area when it is blank',
    },
    {
      header: 'Earliest start',
      formerly: 'Not before',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'when it can begin at the earliest',
    },
    {
      header: 'Planned downtime',
      formerly: 'Booked hours',
      kind: 'hours',
      above: 0,
      digits: 1,
      doc: 'hours that the belt stands for all its joints, in place of what the rates in Assumptions give',
    },
    {
      header: 'Priority',
      formerly: 'Weight',
      kind: 'number',
      above: 0,
      max: 1000,
      digits: 1,
      doc: 'how much it counts that it is planned at all, where not all can be; 1 when it is blank',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
