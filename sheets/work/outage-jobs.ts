import { declareSheet } from '../../src/sheet/declaration.ts';

/** Special rules for the job on a belt in an outage; a belt without a row is planned as any other. */
export const outageJobs = declareSheet({
  name: 'Outage jobs',
  purpose: "Special rules for a belt's job in an outage: jobs that come before it, number of crews, allowed windows",
  record: 'outage job',
  key: 'Belt',
  partOf: { sheet: 'Belts', header: 'Belt' },
  columns: [
    {
      header: 'Belt',
      kind: 'text',
      choices: { sheet: 'Belts', header: 'Belt' },
      doc: 'belt whose joints (splices) are made',
    },
    {
      header: 'After',
      kind: 'text',
      choices: { sheet: 'Belts', header: 'Belt' },
      several: true,
      doc: 'belts whose joints must be finished first, separated by commas',
    },
    { header: 'Crews at once', kind: 'count', min: 1, max: 10, doc: 'crews that work on it together; blank: one' },
    {
      header: 'Allowed windows',
      formerly: 'Only in',
      kind: 'text',
      choices: { sheet: 'Windows', header: 'Window' },
      several: true,
      doc: 'windows in which the job may be planned, separated by commas; blank: any window of its area',
    },
    {
      header: 'Earliest start',
      formerly: 'Not before',
      kind: 'date',
      timed: true,
      min: 1,
      doc: 'date and time before which the job must not begin',
    },
    {
      header: 'Planned downtime',
      formerly: 'Booked hours',
      kind: 'hours',
      above: 0,
      digits: 1,
      doc: 'downtime of the belt for all its joints, instead of the hours from the rates in Assumptions',
    },
    {
      header: 'Priority',
      formerly: 'Weight',
      kind: 'number',
      above: 0,
      max: 1000,
      digits: 1,
      doc: 'weight of this job when not all jobs can be planned; a higher number is planned first; blank: 1',
    },
    { header: 'Remark', kind: 'text', doc: 'free' },
  ],
});
