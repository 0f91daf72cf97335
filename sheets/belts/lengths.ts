import { columns } from '../../src/sheet/declaration.ts';
import { known, listed, needed, orNone } from './inputs.ts';

/** The loop, what is to be ordered for it, and how long its joint lasts. */

const jointTakes = needed('{Belt consumed}+2*TrimPerEnd');
const roll = `IF(ISBLANK({Roll length}),${needed('RollLength')},${needed('{Roll length}')})`;

export const lengthColumns = columns([
  {
    header: 'Loop from',
    kind: 'text',
    doc:
      'what the loop is worked out from: the list of pulleys where all of them have a place; else centres, head ' +
      'and tail pulley',
    formula: `IF({Pulleys listed}<2,"centres",IF(${listed('Placed')}=0,"pulleys","centres"))`,
  },
  {
    header: 'Loop length',
    kind: 'distance',
    digits: 2,
    doc: 'of the belt, all round',
    formula:
      `IF({Loop from}="pulleys",IF(${listed('Joined')}=0,SUMIFS({Pulleys.Run},{Pulleys.Belt},` +
      `{Belt})+SUMIFS({Pulleys.Arc},{Pulleys.Belt},{Belt}),NA()),` +
      `${needed('BELTLOOP({Centres}*' + 'ShortPerLong,{Head ' + 'pulley},{Tail ' + 'pulley})/ShortPerLong')})`,
  },
  {
    header: 'Passes per hour',
    kind: 'frequency',
    digits: 1,
    doc: 'how often a joint goes round in an hour',
    formula: needed('{Speed}*TravelPerHour/{Loop length}'),
  },
  {
    header: 'Passes per year',
    kind: 'perYear',
    digits: 0,
    doc: 'how often a joint goes round in a year',
    formula: known(['{Passes per hour}', '{Hours per year}'], needed('{Passes per hour}*{Hours per year}')),
  },
  {
    header: 'Joint age',
    kind: 'hours',
    digits: 0,
    doc: 'running hours since the joint went in',
    formula: needed('(ReviewDate-{Installed})/DaysPerYear*{Hours per year}', '{Installed}<=ReviewDate'),
  },
  {
    header: 'Age in passes',
    kind: 'number',
    digits: 0,
    doc: 'times round since the joint went in',
    formula: known(['{Joint age}', '{Passes per hour}'], 'PASSES({Passes per hour},{Joint age})'),
  },
  {
    header: 'Life used from',
    kind: 'text',
    background: true,
    doc: 'which life ends first: that in hours, or that in passes',
    formula:
      'IF(ISBLANK({Life in passes}),"hours",IF(ISBLANK({Joint life}),"passes",IF(COUNT({Life in passes},{Joint ' +
      'life},{Passes per hour})<3,"not known",IF({Life in passes}/{Passes per hour}<{Joint life},"passes","hours"))))',
    source: 'definition',
  },
  {
    header: 'Life in hours',
    kind: 'hours',
    digits: 0,
    doc: 'running hours that the joint is expected to last, by hours or by passes, whichever ends first',
    formula:
      `IF({Life used from}="hours",${needed('{Joint life}')},IF({Life used ` +
      `from}="passes",${needed('{Life in ' + 'passes}/{Passes per ' + 'hour}')},NA()))`,
  },
  {
    header: 'Due',
    kind: 'date',
    doc: 'day on which the joint reaches its life',
    formula: needed('{Installed}+{Life in hours}/{Hours per year}*DaysPerYear'),
  },
  {
    header: 'Due by',
    kind: 'text',
    doc: 'what makes it due: hours or passes',
    formula: 'IF(ISNUMBER({Due}),{Life used from},"")',
  },
  {
    header: 'Retighten on',
    kind: 'date',
    doc: 'day on which a new joint is looked at and tightened again, after FirstHours of running',
    formula: known(
      ['{Installed}', '{Hours per year}'],
      'RETIGHTENDATE({Installed},{Hours per year},FirstHours,DaysPerYear)',
    ),
  },
  {
    header: 'Stretch to take up',
    kind: 'length',
    digits: 0,
    doc: 'travel of the take-up that the belt stretches by in use',
    formula: known(
      ['{Loop length}'],
      'TAKEUPTRAVEL({Loop length}*ShortPerLong,IF(ISERROR({Carcass material}),StretchTextile,IF({Carcass ' +
        'material}="St",StretchSteelCord,StretchTextile)),TakeUpShare)',
    ),
  },
  {
    header: 'Joints for rolls',
    kind: 'count',
    doc: 'joints of a loop made of whole rolls, and as many rolls',
    formula: known(
      ['{Loop length}', '{Belt consumed}'],
      `JOINTSFORROLLS({Loop length}*ShortPerLong,${roll}*ShortPerLong,${jointTakes})`,
    ),
  },
  {
    header: 'Belt to order',
    kind: 'distance',
    digits: 2,
    doc:
      'for a whole new belt: the loop with the take-up innermost, what its joints take and the trim; Joints, else ' +
      'as many as whole rolls make',
    formula: known(
      ['{Loop length}', '{Belt consumed}', '{Joints for rolls}'],
      `BELTTOORDER({Loop ` +
        `length}*ShortPerLong-${needed('TakeUpShare')}*${orNone('Take-up position')},IF(ISBLANK({Joints}),{Joints ` +
        `for rolls},{Joints}),{Belt consumed},TrimPerEnd,OrderStretch)/ShortPerLong`,
    ),
  },
  {
    header: 'Rolls',
    kind: 'count',
    doc: 'whole rolls that hold the belt to order',
    formula: known(['{Belt to order}'], `ROLLS({Belt to order},${roll})`),
  },
  {
    header: 'Insert to order',
    kind: 'distance',
    digits: 2,
    doc: 'belt to order for the insert, with its two joints',
    formula: known(
      ['{Insert}', '{Belt consumed}'],
      'INSERTTOORDER({Insert}*ShortPerLong,{Belt consumed},TrimPerEnd)/ShortPerLong',
    ),
  },
  {
    header: 'Spare belt',
    kind: 'distance',
    digits: 1,
    doc: 'belt left on the roll in store',
    formula: known(
      ['{Spare roll outside}', '{Spare roll core}', '{Thickness}'],
      'ROLLBELT({Spare roll outside},{Spare roll core},{Thickness})/ShortPerLong',
    ),
  },
]);
