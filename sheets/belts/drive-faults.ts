import type { Column } from '../../src/sheet/declaration.ts';

/**
 * What is said of drives and take-up that can't all be so, or that the tension around the loop has no model for. What
 * is missing or not allowed is left to the checks that need it.
 */

const strayDistance = (place: string, distance: string): string =>
  `IF(ISNUMBER({${distance}}),IF({${place}}="return run",FALSE,TRUE),FALSE)`;

interface DriveFault {
  readonly says: string;
  readonly when: string;
  /** The same as a file says it, where an error in any of it tells of no fault either. */
  readonly inFile: string;
}

const faults: readonly DriveFault[] = [
  {
    says: 'a weight hangs on a screw take-up',
    when: 'IF(ISNUMBER({Take-up weight}),{Take-up used}="screw",FALSE)',
    inFile: 'AND(ISNUMBER({Take-up weight}),{Take-up used}="screw")',
  },
  {
    says: 'the second drive is in the same place as the first',
    when: 'IF(ISBLANK({Second drive place}),FALSE,{Second drive position}={Drive position})',
    inFile: 'AND(NOT(ISBLANK({Second drive place})),{Second drive position}={Drive position})',
  },
  {
    says: 'the second drive has figures and no place',
    when:
      'IF(ISBLANK({Second drive place}),' +
      'COUNT({Second drive share},{Second wrap angle},{Second drive friction},{Second drive distance})>0,FALSE)',
    inFile:
      'AND(ISBLANK({Second drive place}),' +
      'COUNT({Second drive share},{Second wrap angle},{Second drive friction},{Second drive distance})>0)',
  },
  {
    says: 'the drive has a distance and is not on the return run',
    when: strayDistance('Drive place', 'Drive distance'),
    inFile: 'AND(ISNUMBER({Drive distance}),{Drive place}<>"return run")',
  },
  {
    says: 'the second drive has a distance and is not on the return run',
    when: `IF(ISBLANK({Second drive place}),FALSE,${strayDistance('Second drive place', 'Second drive distance')})`,
    inFile:
      'AND(NOT(ISBLANK({Second drive place})),ISNUMBER({Second drive distance}),' +
      '{Second drive place}<>"return run")',
  },
];

const apart = '; ';

/** The faults in the file: what is told of the drives, of the take-up and of the second drive, in as many columns. */
const partHeading = (index: number): string => `Drive fault ${index + 1}`;

export const driveFaultColumn: Column<'Drive faults'> = {
  header: 'Drive faults',
  kind: 'text',
  background: true,
  doc: 'what is entered of drives and take-up that does not go together; empty when nothing is wrong',
  formula: `MID(${faults.map(({ says, when }) => `IFERROR(IF(${when},"${apart}${says}",""),"")`).join('&')},3,32767)`,
  inFile: {
    formula: `TEXTJOIN("${apart}",TRUE,${faults.map((_, index) => `{${partHeading(index)}}`).join(',')})`,
    parts: Object.fromEntries(
      faults.map(({ says, inFile }, index) => [partHeading(index), `IFERROR(IF(${inFile},"${says}",""),"")`]),
    ),
  },
  source: 'definition',
};
