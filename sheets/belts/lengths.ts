import { columns } from '../../src/sheet/declaration.ts';
import { listed } from './inputs.ts';

/** The loop, what is to be ordered for it, and how long its joint lasts. */

/** The loop with the take-up innermost, where a new belt begins. */
const orderedLoop = '{Loop length}*ShortPerLong-TakeUpShare*{Take-up position}';

/** Belt on one roll: the belt's own, else that of most. */
const roll = { 'Roll length': 'RollLength' } as const;

export const lengthColumns = columns([
  {
    header: 'Loop from',
    kind: 'text',
    doc:
      'basis of the loop length: the list of pulleys if all of them have a position; otherwise pulley centres, head ' +
      'and tail pulley',
    formula: `IF({Pulleys listed}<2,"centres",IF(${listed('Placed')}=0,"pulleys","centres"))`,
  },
  {
    header: 'Loop length',
    kind: 'distance',
    digits: 2,
    doc: 'length of the endless belt',
    formula:
      `IF({Loop from}="pulleys",IF(${listed('Joined')}=0,SUMIFS({Pulleys.Run},{Pulleys.Belt},` +
      `{Belt})+SUMIFS({Pulleys.Arc},{Pulleys.Belt},{Belt}),NA()),` +
      'BELTLOOP({Pulley centres}*ShortPerLong,{Head pulley},{Tail pulley})/ShortPerLong)',
  },
  {
    header: 'Passes per hour',
    kind: 'frequency',
    digits: 1,
    doc: 'passes of a joint around the loop per hour',
    formula: '{Speed}*TravelPerHour/{Loop length}',
  },
  {
    header: 'Passes per year',
    kind: 'perYear',
    digits: 0,
    doc: 'passes of a joint around the loop per year',
    formula: '{Passes per hour}*{Hours per year}',
    emptyWithout: ['{Passes per hour}', '{Hours per year}'],
  },
  {
    header: 'Joint age',
    kind: 'hours',
    digits: 0,
    doc: 'running hours since the joint was installed',
    formula: '(ReviewDate-{Installed})/DaysPerYear*{Hours per year}',
    must: ['{Installed}<=ReviewDate'],
  },
  {
    header: 'Age in passes',
    kind: 'number',
    digits: 0,
    doc: 'passes since the joint was installed',
    formula: 'PASSES({Passes per hour},{Joint age})',
    emptyWithout: ['{Joint age}', '{Passes per hour}'],
  },
  {
    header: 'Life used from',
    kind: 'text',
    background: true,
    doc: 'the life that ends first: in hours or in passes',
    formula:
      'IF(ISBLANK({Life in passes}),"hours",IF(ISBLANK({Joint life}),"passes",IF(COUNT({Life in passes},{Joint ' +
      'life},{Passes per hour})<3,"not known",IF({Life in passes}/{Passes per hour}<{Joint life},"passes","hours"))))',
    source: 'definition',
  },
  {
    header: 'Life in hours',
    kind: 'hours',
    digits: 0,
    doc: 'expected life of the joint in running hours, by hours or by passes, whichever ends first',
    formula:
      'IF({Life used from}="hours",{Joint life},IF({Life used from}="passes",{Life in passes}/{Passes per hour},NA()))',
    inFile: { above: 0 },
  },
  {
    header: 'Due',
    kind: 'date',
    doc: 'date on which the joint reaches its expected life',
    formula: '{Installed}+{Life in hours}/{Hours per year}*DaysPerYear',
  },
  {
    header: 'Due reason',
    formerly: 'Due by',
    kind: 'text',
    doc: 'reason that it is due: hours or passes',
    formula: '{Life used from}',
    emptyWithout: ['{Due}'],
  },
  {
    header: 'Retighten on',
    kind: 'date',
    doc: 'date to inspect and re-tighten a new joint, after FirstHours of running',
    formula: 'RETIGHTENDATE({Installed},{Hours per year},FirstHours,DaysPerYear)',
    emptyWithout: ['{Installed}', '{Hours per year}'],
  },
  {
    header: 'Stretch allowance',
    formerly: 'Stretch to take up',
    kind: 'length',
    digits: 0,
    doc: 'take-up travel needed for the stretch of the belt in use',
    formula:
      'TAKEUPTRAVEL({Loop length}*ShortPerLong,IF(ISERROR({Carcass material}),StretchTextile,IF({Carcass ' +
      'material}="St",StretchSteelCord,StretchTextile)),TakeUpShare)',
    emptyWithout: ['{Loop length}'],
  },
  {
    header: 'Joints with whole rolls',
    formerly: 'Joints for rolls',
    kind: 'count',
    doc: 'joints of a new belt made of whole rolls, and as many rolls',
    formula:
      `JOINTSFORROLLS((${orderedLoop})/(1+OrderStretch),` +
      '{Roll length}*ShortPerLong,{Belt lost to skew}+2*TrimPerEnd)',
    optional: { ...roll, 'Take-up position': 0 },
    emptyWithout: ['{Loop length}', '{Belt lost to skew}'],
  },
  {
    header: 'Belt to order',
    kind: 'distance',
    digits: 2,
    doc:
      'for a whole new belt: the loop with the take-up innermost, what its joints take and the trim; as many joints ' +
      'as whole rolls make, or Joints where they are more',
    formula:
      `BELTTOORDER(${orderedLoop},MAX({Joints},{Joints with whole rolls}),` +
      '{Belt lost to skew},TrimPerEnd,' +
      'OrderStretch)/ShortPerLong',
    optional: { 'Take-up position': 0, Joints: '{Joints with whole rolls}' },
    emptyWithout: ['{Loop length}', '{Belt lost to skew}'],
  },
  {
    header: 'Rolls',
    kind: 'count',
    doc: 'whole rolls that hold the belt to order',
    formula: 'ROLLS({Belt to order},{Roll length})',
    optional: roll,
    emptyWithout: ['{Belt to order}'],
  },
  {
    header: 'Insert to order',
    kind: 'distance',
    digits: 2,
    doc: 'belt to order for the insert, with its two joints',
    formula: 'INSERTTOORDER({Insert}*ShortPerLong,{Belt lost to skew},TrimPerEnd)/ShortPerLong',
    emptyWithout: ['{Insert}', '{Belt lost to skew}'],
  },
  {
    header: 'Spare belt',
    kind: 'distance',
    digits: 1,
    doc: 'belt left on the roll in store',
    formula: 'ROLLBELT({Spare roll diameter},{Spare roll core diameter},{Thickness})/ShortPerLong',
    emptyWithout: ['{Spare roll diameter}', '{Spare roll core diameter}', '{Thickness}'],
  },
]);
