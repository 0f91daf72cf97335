import { columns } from '../../src/sheet/declaration.ts';
import { fine, short } from './column-digits.ts';

/** What the joint takes from the loop, and the travel of the take-up that this and the belt's stretch need. */
export const takeUpColumns = columns([
  {
    header: 'Replaced joint',
    kind: 'text',
    background: true,
    doc: 'what the joint replaces, as entered, or a square joint; a joint of another skew where Replaced skew says so',
    formula:
      'IF(ISBLANK({Replaced skew}),{Replaces},IF({Replaces}="new belt",{Replaces},' +
      'IF({Replaced skew}=IF({Replaces}="same skew",{Skew},0),{Replaces},"other skew")))',
    optional: { Replaces: '"square joint"' },
    source: 'our choice, on the safe side: of the usual ones a square joint makes a skew one take most',
  },
  {
    header: 'Cut-out used',
    kind: 'length',
    digits: short,
    background: true,
    doc: 'as entered; default: the length of a plate, between parallel cuts with TrimPerEnd on either side',
    formula: '{Cut-out}',
    optional: { 'Cut-out': '{Plate length used}+IF({Replaced joint}="same skew",2*TrimPerEnd,0)' },
    source: 'common practice, no source, where it is not given',
  },
  {
    header: 'Joint takes',
    kind: 'length',
    digits: fine,
    doc: 'belt that the joint takes from the loop, by what it replaces; 0 where an Insert brings what its joints take',
    formula:
      'IF(ISNUMBER({Insert}),0,1)*' +
      'JOINTTAKES({Width},{Skew},{Replaced joint},{Cut-out used},TrimPerEnd,{Replaced skew})',
    optional: { 'Replaced skew': null },
  },
  {
    header: 'Stretch reserve',
    kind: 'length',
    digits: short,
    background: true,
    doc:
      'travel that must be left for the belt to change its length: all of Stretch allowance for a new belt, ' +
      'StretchLeft of it for one that has run; empty where the loop is not known',
    formula: 'IF({Replaced joint}="new belt",1,StretchLeft)*{Stretch allowance}',
    emptyWithout: ['{Stretch allowance}'],
    source: 'StretchLeft: common practice, no source',
  },
  {
    header: 'Travel needed',
    kind: 'length',
    digits: short,
    doc: 'travel of the take-up for what the joint takes and the stretch reserve',
    formula: '{Joint takes}/TakeUpShare+{Stretch reserve}',
    source: 'geometry of the take-up',
  },
]);
