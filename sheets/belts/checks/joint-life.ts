import { declareChecks } from '../check-declaration.ts';
import { ofBelt } from './compared.ts';

/** The joint that is in the belt, by its age. */
export const jointLifeChecks = declareChecks([
  {
    word: 'age',
    doc: 'joint age against its expected life',
    source: 'expected life as entered; dates and hours by arithmetic',
    look: 'Installed',
    // It fails when the joint is due, which is why a new one is made.
    ofJointInPlace: true,
    value: ofBelt('Joint age', 'the age of the joint in running hours'),
    maximum: ofBelt('Life in hours', (belt) =>
      belt.text('Due reason') === 'passes' ? 'its expected life in passes, as hours' : 'its expected life',
    ),
    remark: (belt, verdict) =>
      `It was installed on ${belt.shown('Installed')} and ${verdict === 'fails' ? 'was' : 'is'} due on ` +
      `${belt.shown('Due')}.`,
    cures: ['new joint'],
  },
]);
