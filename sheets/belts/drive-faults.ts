import type { Column } from '../../src/sheet/declaration.ts';

/**
 * What is said of drives and take-up that can't all be so, or that the tension around the loop has no model for. What
 * is missing or not allowed is left to the checks that need it.
 */

const strayDistance = (place: string, distance: string): string =>
  `IF(ISNUMBER({${distance}}),IF({${place}}="return run",FALSE,TRUE),FALSE)`;

const faults: readonly { readonly says: string; readonly when: string }[] = [
  { says: 'a weight hangs on a screw take-up', when: 'IF(ISNUMBER({Take-up weight}),{Take-up used}="screw",FALSE)' },
  {
    says: 'the second drive is in the same place as the first',
    when: 'IF(ISBLANK({Second drive place}),FALSE,{Second drive position}={Drive position})',
  },
  {
    says: 'the second drive has figures and no place',
    when:
      'IF(ISBLANK({Second drive place}),' +
      'COUNT({Second drive share},{Second wrap angle},{Second drive friction},{Second drive distance})>0,FALSE)',
  },
  {
    says: 'the drive has a distance and is not on the return run',
    when: strayDistance('Drive place', 'Drive distance'),
  },
  {
    says: 'the second drive has a distance and is not on the return run',
    when: `IF(ISBLANK({Second drive place}),FALSE,${strayDistance('Second drive place', 'Second drive distance')})`,
  },
];

export const driveFaultColumn: Column<'Drive faults'> = {
  header: 'Drive faults',
  kind: 'text',
  background: true,
  doc: 'what is entered of drives and take-up that does not go together; empty when nothing is wrong',
  formula: `MID(${faults.map(({ says, when }) => `IFERROR(IF(${when},"; ${says}",""),"")`).join('&')},3,32767)`,
  source: 'definition',
};
