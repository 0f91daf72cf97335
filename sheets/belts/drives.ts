import { besideWord, frictionInFile, startTable } from '../values/file-tables.ts';
import { columns } from '../../src/sheet/declaration.ts';
import { startFactorFormula } from '../values/starting.ts';
import type { FormulaInFile } from '../../src/sheet/declared-formula.ts';
import { lineInFile } from '../values/table-lines.ts';
import { frictionFormula, screwFactorFormula, screwFactorTable, settledFormula } from '../values/tables.ts';

/**
 * Drives and take-up: how they start and grip, and where on the loop they stand.
 *
 * Places run along the return run, from 0 at the head to 1 at the tail. A drive at the tail acts behind the return run,
 * so that a take-up at the tail stands before it; anywhere else a take-up stands behind a drive of the same place.
 */

/** The word for a friction that is read from the table of surfaces. */
const bySurface = 'drive pulley surface';

/** One of the two words of a take-up, #N/A for any other. */
const takeUpWord = (cell: string): string => `IF(${cell}="screw","screw",IF(${cell}="automatic","automatic",NA()))`;

/** Slack side over pull by wrap and friction; with a screw take-up at least the table's figure. */
function wrapFactorFormula(wrap: string, friction: string): string {
  const degrees = settledFormula(`RADIANS(${wrap})/RADIANS(1)`);
  const screw = (face: 'Bare' | 'Lagged'): string =>
    screwFactorFormula(degrees, face, `SCREWFACTOR(${wrap},"${face.toLowerCase()}")`);
  return (
    `IF(ISERROR({Take-up used}),NA(),IF({Take-up used}="screw",MAX(WRAPFACTOR(${wrap},${friction}),` +
    `IF(OR(ISBLANK({Drive pulley surface}),{Drive pulley surface}="bare steel"),${screw('Bare')},` +
    `${screw('Lagged')})),WRAPFACTOR(${wrap},${friction})))`
  );
}

/** The same as a file works it out: the friction's and the table's share in parts of their own. */
function wrapFactorInFile(drive: string, wrap: string, friction: string): FormulaInFile {
  const degrees = settledFormula(`RADIANS(${wrap})/RADIANS(1)`);
  const slip = `WRAPFACTOR(${wrap},${friction})`;
  const heading = `${drive} wrap in degrees`;
  const line = `${drive} row by wrap`;
  const [bare, lagged] = (['Bare', 'Lagged'] as const).map((face) =>
    lineInFile(screwFactorTable(face), `{${heading}}`, line),
  );
  return {
    formula:
      `IF(ISERROR({Take-up used}),NA(),IF({Take-up used}="screw",` +
      `MAX({${drive} against slip},{${drive} screw take-up}),{${drive} against slip}))`,
    parts: {
      [`${drive} against slip`]: slip,
      [heading]: degrees,
      ...bare?.parts,
      [`${drive} screw take-up`]:
        `IF(OR(ISBLANK({Drive pulley surface}),{Drive pulley surface}="bare steel"),` +
        `${bare?.formula ?? ''},${lagged?.formula ?? ''})`,
    },
  };
}

const secondWrap = wrapFactorInFile('Second drive', '{Second wrap angle}', '{Second drive friction}');
const secondWrapInFile = { ...secondWrap, formula: `IF({Second share}=0,0,${secondWrap.formula})` };

/** The place that a word and a distance say; 0, the head, where there is no word. */
const placeFormula = (word: string, distance: string): string =>
  `IF(ISBLANK(${word}),0,IF(${word}="head",0,IF(${word}="tail",1,IF(${word}="return run",` +
  `${distance}/{Pulley centres},NA()))))`;

/** What both drives give where a condition on the place of each holds. */
const givenWhere = (holds: (position: string) => string): string =>
  `IF(${holds('{Drive position}')},1-{Second share},0)+` +
  `IF({Second share}=0,0,IF(${holds('{Second drive position}')},{Second share},0))`;

const onReturnRun = (position: string): string => `IF(${position}=0,0,IF(${position}=1,0,{Sag tension return}))`;

export const driveColumns = columns([
  {
    header: 'Start factor used',
    kind: 'number',
    digits: 2,
    background: true,
    doc: 'pull at start-up over running pull: by how the drive starts; default: StartFactor',
    formula: startFactorFormula('{Starting}'),
    source: 'from memory',
    inFile: { formula: `IF(ISBLANK({Starting}),StartFactor,${besideWord(startTable, '{Starting}')})` },
  },
  {
    header: 'Drive friction from',
    formerly: 'Friction from',
    kind: 'text',
    formerWords: { 'drive face': bySurface },
    background: true,
    doc: 'source of the drive friction: entered, or the surface and condition of the drive pulley',
    formula:
      'IF(NOT(ISBLANK({Drive friction})),"entered",IF(AND(ISTEXT({Drive pulley surface}),ISTEXT({Drive pulley ' +
      `condition})),"${bySurface}","not known"))`,
  },
  {
    header: 'Drive friction used',
    formerly: 'Friction used',
    kind: 'number',
    digits: 2,
    background: true,
    doc: 'friction between belt and drive pulley, as entered, otherwise by its surface and condition',
    formula:
      `IF({Drive friction from}="${bySurface}",` +
      `${frictionFormula('{Drive pulley surface}', '{Drive pulley ' + 'condition}')},{Drive friction})`,
    inFile: {
      formula:
        `IF({Drive friction ` +
        `from}="${bySurface}",${frictionInFile('{Drive pulley surface}', '{Drive pulley ' + 'condition}')},{Drive ` +
        `friction})`,
    },
  },
  {
    header: 'Take-up used',
    kind: 'text',
    background: true,
    doc: 'as given for the belt, otherwise TakeUpType',
    formula: `IF(ISBLANK({Take-up type}),${takeUpWord('TakeUpType')},${takeUpWord('{Take-up type}')})`,
    inFile: {
      formula: takeUpWord('{Take-up type or assumed}'),
      parts: { 'Take-up type or assumed': 'IF(ISBLANK({Take-up type}),TakeUpType,{Take-up type})' },
    },
  },
  {
    header: 'Wrap factor',
    formerly: 'Slack factor',
    kind: 'number',
    digits: 3,
    background: true,
    doc:
      'slack-side tension over effective tension: against slip, and with a screw take-up at least the figure in ' +
      'Tables',
    formula: wrapFactorFormula('{Wrap angle}', '{Drive friction used}'),
    emptyWithout: ['{Wrap angle}', '{Drive friction used}'],
    inFile: wrapFactorInFile('First drive', '{Wrap angle}', '{Drive friction used}'),
    source: 'Euler-Eytelwein; screw take-up: from memory',
  },
  {
    header: 'Drive position',
    kind: 'ratio',
    digits: 3,
    background: true,
    doc: 'place of the drive along the return run: 0 at the head, 1 at the tail',
    formula: placeFormula('{Drive place}', '{Drive distance}'),
    must: ['{Drive distance}<{Pulley centres}'],
    source: 'definition; the head where nothing is given: common practice, no source',
  },
  {
    header: 'Second drive position',
    kind: 'ratio',
    digits: 3,
    background: true,
    doc: 'place of the second drive along the return run; 0 without one',
    formula: placeFormula('{Second drive place}', '{Second drive distance}'),
    must: ['{Second drive distance}<{Pulley centres}'],
    source: 'definition',
  },
  {
    header: 'Second share',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the pull that the second drive gives; 0 without one',
    formula:
      'IF(ISBLANK({Second drive place}),IF(COUNT({Second drive share},{Second wrap angle})=0,0,NA()),' +
      'IF({Second drive position}={Drive position},NA(),{Second drive share}))',
    source: 'definition',
  },
  {
    header: 'Second wrap factor',
    kind: 'number',
    digits: 3,
    background: true,
    doc: 'slack-side tension over effective tension of the second drive; 0 without one',
    formula: `IF({Second share}=0,0,${wrapFactorFormula('{Second wrap angle}', '{Second drive friction}')})`,
    optional: { 'Second drive friction': '{Drive friction used}' },
    inFile: secondWrapInFile,
    source: 'Euler-Eytelwein; screw take-up: from memory',
  },
  {
    header: 'Grip factor',
    kind: 'number',
    digits: 3,
    background: true,
    doc: 'slack-side tension that the first drive needs over the pull of both',
    formula: '(1-{Second share})*{Wrap factor}',
    emptyWithout: ['{Wrap factor}'],
    source: 'arithmetic',
  },
  {
    header: 'Second grip factor',
    kind: 'number',
    digits: 3,
    background: true,
    doc: 'slack-side tension that the second drive needs over the pull of both',
    formula: '{Second share}*{Second wrap factor}',
    source: 'arithmetic',
  },
  {
    header: 'Take-up place',
    kind: 'ratio',
    digits: 3,
    background: true,
    doc: 'place of the take-up along the return run: 0 at the head, 1 at the tail',
    formula:
      'IF(ISBLANK({Take-up distance}),IF({Drive position}=1,0,{Drive position}),{Take-up distance}/{Pulley centres})',
    must: ['{Take-up distance}<={Pulley centres}'],
    source: 'definition; behind the drive where nothing is given: common practice, no source',
  },
  {
    header: 'Share to take-up',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the pull given from the head to the take-up',
    formula: givenWhere((position) => `IF(${position}=1,2,${position})<={Take-up place}`),
    source: 'definition',
  },
  {
    header: 'Share to drive',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the pull given from the head to the first drive, its own included',
    formula: '1-{Second share}+IF({Second drive position}<{Drive position},{Second share},0)',
    source: 'definition',
  },
  {
    header: 'Share to second drive',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the pull given from the head to the second drive, its own included; 0 without one',
    formula: '{Second share}+IF({Drive position}<{Second drive position},1-{Second share},0)',
    source: 'definition',
  },
  {
    header: 'Share at head',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the pull given at the head',
    formula: givenWhere((position) => `${position}=0`),
    source: 'definition',
  },
  {
    header: 'Share at tail',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the pull given at the tail',
    formula: givenWhere((position) => `${position}=1`),
    source: 'definition',
  },
  {
    header: 'Sag tension at drive',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension against sag on both sides of a drive on the return run; 0 for one elsewhere',
    formula: onReturnRun('{Drive position}'),
    emptyWithout: ['{Belt mass used}'],
    source: 'definition',
  },
  {
    header: 'Sag tension at second drive',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension against sag on both sides of a second drive on the return run; 0 for one elsewhere',
    formula: onReturnRun('{Second drive position}'),
    emptyWithout: ['{Belt mass used}'],
    source: 'definition',
  },
  {
    header: 'Take-up tension by weight',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'tension that the weight gives the belt at the take-up, on either side of its pulley; empty without a weight',
    formula: 'IF({Take-up used}="automatic",{Take-up weight}*Gravity*{Take-up rope falls}/2,NA())',
    optional: { 'Take-up rope falls': 1 },
    emptyWithout: ['{Take-up weight}'],
    source: 'equilibrium of the take-up pulley',
  },
]);
