import { columns } from '../../src/sheet/declaration.ts';

/** Under which tension of its belt a pulley stands, by its type and its place in the list, and its group by that. */

export const ofBelt = (header: string): string => `INDEX({Belts.${header}},{Belt row})`;

const ofTail = (header: string): string => `INDEX({Pulleys.${header}},{Tail row})`;
const ofHead = (header: string): string => `INDEX({Pulleys.${header}},{Head row})`;

/**
 * The row of the belt's pulley of a type; empty where none is listed. Counting by the name of the belt says whose
 * pulleys it is of, so that one which is moved to another belt is missed here.
 */
const rowOfType = (type: string): string =>
  `IF(NOT(ISNUMBER({Belt row})),"",IF(COUNTIFS({Pulleys.Belt},{Belt},{Pulleys.Pulley type},"${type}")=0,"",` +
  `IFERROR(MATCH({Belt}&"/${type}",{Pulleys.Type mark},0),"")))`;

/** How many rows of the list, in the direction of travel, a row comes after the tail's. */
const behindTail = (row: string): string => `IF(${row}<{Tail row},${row}+{Last row}-{First row}+1,${row})-{Tail row}`;

const isType = (...types: readonly string[]): string =>
  types.length === 1
    ? `{Pulley type}="${types[0] ?? ''}"`
    : `OR(${types.map((type) => `{Pulley type}="${type}"`).join(',')})`;

const byResistances = `${ofBelt('Tension from')}="resistances"`;
/** A belt whose drives are not known has its tension by another way, which says nothing of where it is tight. */
const drivenAtHead = `IFERROR(${ofBelt('Share at head')}=1,TRUE)`;
const perWidth = (force: string): string => `${force}/${ofBelt('Width')}`;

export const pulleyTensionColumns = columns([
  {
    header: 'Type mark',
    kind: 'text',
    background: true,
    doc: 'its belt and type, by which the head and the tail are found',
    formula: '{Belt}&"/"&{Pulley type}',
    source: 'definition',
  },
  {
    header: 'Tail row',
    kind: 'count',
    background: true,
    doc: 'row of the tail pulley of its belt; empty if none is listed',
    formula: rowOfType('tail'),
    source: 'definition',
  },
  {
    header: 'Listed head row',
    kind: 'count',
    background: true,
    doc: 'row of the pulley of its belt with the type head; empty if none is listed',
    formula: rowOfType('head'),
    source: 'definition',
  },
  {
    header: 'Head row',
    kind: 'count',
    background: true,
    doc: 'row of the head pulley of its belt, or of the drive pulley at the head; empty if none is listed',
    formula:
      `IF(ISNUMBER({Listed head row}),{Listed head row},` +
      `IF(IFERROR(${ofBelt('Drive position')}=0,FALSE),${rowOfType('drive')},""))`,
    source: 'definition',
  },
  {
    header: 'Run side',
    kind: 'text',
    doc:
      'run of the belt that it is on, by its place in the list: carrying run from the tail to the head, return ' +
      'run from the head to the tail; empty without a head and a tail in the list',
    formula:
      `IF(COUNT({Tail row},{Head row})<2,"",IF(OR(ROW()={Tail row},ROW()={Head row}),"end",` +
      `IF(${behindTail('ROW()')}<${behindTail('{Head row}')},"carrying run","return run")))`,
    source: 'definition: the order of travel',
  },
  {
    header: 'Carrying share',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'how far it is on the carrying run from the tail to the head, by its position x; empty elsewhere',
    formula: `IF({Run side}="carrying run",` + `MAX(0,MIN(1,({x}-${ofTail('x')})/(${ofHead('x')}-${ofTail('x')}))),"")`,
    emptyWithout: ['{x}', '{Tail row}', '{Head row}', ofTail('x'), ofHead('x')],
    source: 'geometry',
  },
  {
    header: 'Group used',
    kind: 'text',
    doc:
      'as entered; otherwise A for head, drive and Tight side; C for a snub with up to 30 degrees of contact, B for ' +
      'the others',
    formula:
      `IF(LEN({Group})>0,{Group},IF(OR(${isType('head', 'drive')},LEN({Pulley type})=0),"A",` +
      `IF(AND(${isType('snub')},ISNUMBER({Wrap angle used})),` +
      `IF({Wrap angle used}<=30,"C",IF({Tight side}="yes","A","B")),IF({Tight side}="yes","A","B"))))`,
    source: 'groups after DIN 22101, from memory; group by type and place: common practice, no source',
  },
  {
    header: 'Tight side',
    kind: 'text',
    background: true,
    doc:
      'whether it may be on the tight side: on the carrying run, and anywhere but at the take-up if a drive is away ' +
      'from the head',
    formula: `IF({Run side}="carrying run","yes",IF(${isType('take-up')},"no",` + `IF(${drivenAtHead},"no","yes")))`,
    source: 'common practice, no source',
  },
  {
    header: 'Tension from',
    kind: 'text',
    formerWords: { greatest: 'maximum' },
    doc: 'tension of the belt that applies to the pulley',
    source: 'tension by the type and the place of the pulley: common practice, no source',
    formula:
      `IF(NOT(ISBLANK({Local tension})),"entered",IF(${isType('tail', 'snub', 'bend', 'take-up')},` +
      `IF({Run side}="carrying run",IF(${byResistances},"carrying run","maximum"),IF({Tight side}="yes","maximum",` +
      `IF(${byResistances},IF(${isType('tail')},"tail",IF(${drivenAtHead},"return run","take-up")),` +
      `IF(AND(${ofBelt('Tension from')}="power",${isType('snub', 'bend', 'take-up')},${drivenAtHead}),` +
      `"slack side","maximum")))),"maximum"))`,
  },
  {
    header: 'Carrying tension',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc:
      'steady tension on the carrying run at its place, on a straight line from tail to head; without a place the ' +
      'larger of both ends',
    formula:
      `IF(ISNUMBER({Carrying share}),` +
      `${perWidth(
        `(${ofBelt('Steady tail tension')}*(1-{Carrying ` +
          `share})+${ofBelt('Steady head tension')}*{Carrying ` +
          `share})`,
      )},` +
      `${perWidth(`MAX(${ofBelt('Steady tail tension')},${ofBelt('Steady head tension')})`)})`,
    emptyWithout: [ofBelt('Steady tail tension'), ofBelt('Steady head tension'), ofBelt('Width')],
    source: 'common practice, no source: the tension grows evenly along the run',
  },
  {
    header: 'Tension',
    kind: 'lineTension',
    digits: 1,
    doc: 'steady tension of the belt on the pulley; if not known, the steady maximum of the whole loop',
    formula:
      `IF({Tension from}="entered",{Local tension},` +
      `IF({Tension from}="carrying run",{Carrying tension},` +
      `IF({Tension from}="tail",${perWidth(ofBelt('Steady tail tension'))},` +
      `IF({Tension from}="return run",${perWidth(ofBelt('Steady return tension'))},` +
      `IF({Tension from}="take-up",${perWidth(ofBelt('Slack-side tension'))},` +
      `IF({Tension from}="slack side",${perWidth(ofBelt('Slack-side tension by power'))},` +
      `${ofBelt('Steady tension')}))))))`,
  },
]);
