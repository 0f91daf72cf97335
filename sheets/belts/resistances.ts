import { type Column, columns } from '../../src/sheet/declaration.ts';
import type { IdlerRun } from '../../src/functions/figure-names.ts';
import type { FileForm } from '../../src/sheet/declared-formula.ts';
import { idlerDoc, idlerMassFormula, idlerTable, tableWidthFormula } from '../values/idlers.ts';
import { lineInFile } from '../values/table-lines.ts';
import { lengthFactorFormula, lengthFactorTable, settledFormula, shortestByFactor } from '../values/tables.ts';
import type { CaseWord } from './load-cases.ts';

/** What pulls on the belt in each case of load: resistances, lift, and masses that gather speed or lose it. */

/** What the resistances along the conveyor rest on. */
export const resisting = ['{Length factor}', '{Load mass}', '{Belt mass used}', '{Lift}', '{Wrap factor}', '{Width}'];

const beltPull = (load: string, friction: string): string =>
  `BELTPULL({Pulley centres},{Lift},{Carry idlers used},{Return idlers used},{Belt mass used},${load},${friction},` +
  '{Length factor},Gravity)+{Special resistance}';
const returnPull = (friction: string): string =>
  `RUNPULL({Pulley centres},-{Lift},{Return idlers used},{Belt mass used},${friction},{Length factor},Gravity)`;
const inertia = (state: 'empty' | 'loaded', rate: 'StartAcceleration' | 'BrakeDeceleration'): string =>
  `{Moving mass ${state}}*${rate}*ForcePerAcceleration`;

type PullHeader = `Effective tension ${CaseWord}`;
type GainHeader = `Return run resistance${'' | ` ${CaseWord}`}`;

const force = <Header extends string>(
  column: Pick<Column<Header>, 'header' | 'formerly' | 'doc' | 'formula' | 'optional' | 'source'>,
): Column<Header> => ({ ...column, kind: 'force', digits: 0, background: true, emptyWithout: resisting });

const noSpecial = { 'Special resistance': 0 };
const massOrFactor = 'masses times acceleration, or the start factor, whichever is more: DIN 22101, from memory';

/** The mass by width as a part of its own. */
function idlersInFile(run: IdlerRun): FileForm {
  const { formula, parts } = lineInFile(idlerTable(run), '{Table width}', `${run} idlers row by width`);
  const heading = `${run} idlers by width`;
  return {
    formula: `IF(ISBLANK({${run} idler mass}),IF(${run}Idlers>0,${run}Idlers,{${heading}}),{${run} idler mass})`,
    parts: { ...parts, [heading]: formula },
  };
}

/** The length in metres as the table of length factors is read by it, and its line there. */
const lengthInMetres = settledFormula('{Pulley centres}/OneMetre');
const lengthLine = lineInFile(lengthFactorTable, '{Length in metres}', 'Length factor row by length');

const lineMass = { kind: 'lineMass', digits: { metric: 1, us: 2 }, background: true } as const;

export const resistanceColumns = columns([
  {
    header: 'Table width',
    kind: 'number',
    digits: 0,
    background: true,
    doc: 'width in millimetres by which the table of idlers is read',
    formula: tableWidthFormula(settledFormula('{Width}/OneMetre/ShortPerLong*1000')),
    emptyWithout: ['{Width}'],
    source: 'definition',
  },
  {
    header: 'Carry idlers used',
    ...lineMass,
    doc: `rotating mass of the carrying idlers: as entered, otherwise CarryIdlers, otherwise by width: ${idlerDoc}`,
    formula: '{Carry idler mass}',
    optional: { 'Carry idler mass': `IF(CarryIdlers>0,CarryIdlers,${idlerMassFormula('Carry', '{Table width}')})` },
    inFile: idlersInFile('Carry'),
    source: 'from memory',
  },
  {
    header: 'Return idlers used',
    ...lineMass,
    doc: `rotating mass of the return idlers: as entered, otherwise ReturnIdlers, otherwise by width: ${idlerDoc}`,
    formula: '{Return idler mass}',
    optional: { 'Return idler mass': `IF(ReturnIdlers>0,ReturnIdlers,${idlerMassFormula('Return', '{Table width}')})` },
    inFile: idlersInFile('Return'),
    source: 'from memory',
  },
  {
    header: 'Load mass',
    kind: 'lineMass',
    digits: 1,
    background: true,
    doc: 'mass of the load per length of a loaded belt',
    formula: '{Capacity}/{Speed}*LoadPerRate',
    emptyWithout: ['{Capacity}', '{Speed}'],
  },
  {
    header: 'Length factor',
    kind: 'number',
    digits: 2,
    background: true,
    doc:
      `factor for secondary resistances by the conveyor's length, from the sheet Tables; none below ` +
      `${shortestByFactor} m`,
    formula: lengthFactorFormula(lengthInMetres, '""'),
    inFile: {
      above: 0,
      formula: `IF({Length in metres}<${shortestByFactor},"",${lengthLine.formula})`,
      parts: { 'Length in metres': lengthInMetres, ...lengthLine.parts },
    },
    emptyWithout: ['{Pulley centres}'],
    source: 'DIN 22101, ISO 5048, from memory',
  },
  {
    header: 'Moving mass empty',
    kind: 'mass',
    digits: 0,
    background: true,
    doc: 'belt all round and idlers, and DriveMassShare of them for pulleys and drive',
    formula: '({Carry idlers used}+{Return idlers used}+2*{Belt mass used})*{Pulley centres}*(1+DriveMassShare)',
    emptyWithout: resisting,
    source: 'arithmetic',
  },
  {
    header: 'Moving mass loaded',
    kind: 'mass',
    digits: 0,
    background: true,
    doc: 'the same and the load',
    formula: '{Moving mass empty}+{Load mass}*{Pulley centres}*(1+DriveMassShare)',
    emptyWithout: resisting,
    source: 'arithmetic',
  },
  force<PullHeader>({
    header: 'Effective tension empty',
    formerly: 'Pull empty',
    doc: 'at the drive, empty belt',
    formula: beltPull('0', 'RollingFriction'),
    optional: noSpecial,
  }),
  force<PullHeader>({
    header: 'Effective tension loaded',
    formerly: 'Pull full',
    doc: 'at the drive, loaded belt; negative if the drive brakes',
    formula: beltPull('{Load mass}', 'RollingFriction'),
    optional: noSpecial,
  }),
  force<PullHeader>({
    header: 'Effective tension starting empty',
    doc: 'at the drive, empty belt starting',
    formula:
      'MAX({Effective tension empty}*{Start factor used},' +
      `{Effective tension empty}+${inertia('empty', 'StartAcceleration')})`,
    source: massOrFactor,
  }),
  force<PullHeader>({
    header: 'Effective tension starting',
    formerly: 'Pull starting',
    doc: 'at the drive, loaded belt starting',
    formula:
      'MAX({Effective tension loaded}*{Start factor used},' +
      `{Effective tension loaded}+${inertia('loaded', 'StartAcceleration')})`,
    source: massOrFactor,
  }),
  force<PullHeader>({
    header: 'Effective tension low friction',
    formerly: 'Pull easy',
    doc: 'at the drive, loaded belt with low friction',
    formula: beltPull('{Load mass}', 'LowFriction'),
    optional: noSpecial,
  }),
  force<PullHeader>({
    header: 'Effective tension braking',
    formerly: 'Pull braking',
    doc: 'at the drive, loaded belt with low friction, braked; negative if the drive brakes',
    formula:
      'MIN({Effective tension low friction}*{Start factor used},' +
      `{Effective tension low friction}-${inertia('loaded', 'BrakeDeceleration')})`,
    source: massOrFactor,
  }),
  force<PullHeader>({
    header: 'Effective tension braking empty',
    doc: 'at the drive, empty belt with low friction, braked; negative if the drive brakes',
    formula: `${beltPull('0', 'LowFriction')}-${inertia('empty', 'BrakeDeceleration')}`,
    optional: noSpecial,
    source: 'masses times acceleration: DIN 22101, from memory',
  }),
  force<PullHeader>({
    header: 'Effective tension at rest',
    formerly: 'Pull stopped',
    doc: 'to hold the loaded belt on its incline, without friction',
    formula: '{Load mass}*Gravity*{Lift}',
  }),
  {
    header: 'Return share empty',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the return run in the mass of the empty belt that gathers speed or loses it',
    formula: '({Return idlers used}+{Belt mass used})*{Pulley centres}*(1+DriveMassShare)/{Moving mass empty}',
    emptyWithout: resisting,
  },
  {
    header: 'Return share',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the return run in the mass of the loaded belt that gathers speed or loses it',
    formula: '({Return idlers used}+{Belt mass used})*{Pulley centres}*(1+DriveMassShare)/{Moving mass loaded}',
    emptyWithout: resisting,
  },
  force<GainHeader>({
    header: 'Return run resistance',
    formerly: 'Return pull',
    doc: 'effective tension of the return run',
    formula: returnPull('RollingFriction'),
  }),
  force<GainHeader>({
    header: 'Return run resistance starting empty',
    doc: 'effective tension of the return run, empty belt starting',
    formula:
      '{Return run resistance}+({Effective tension starting empty}-{Effective tension empty})*{Return share empty}',
    source: 'arithmetic: what starting adds acts where the masses are',
  }),
  force<GainHeader>({
    header: 'Return run resistance starting',
    doc: 'effective tension of the return run, loaded belt starting',
    formula: '{Return run resistance}+({Effective tension starting}-{Effective tension loaded})*{Return share}',
    source: 'arithmetic: what starting adds acts where the masses are',
  }),
  force<GainHeader>({
    header: 'Return run resistance low friction',
    formerly: 'Return easy',
    doc: 'effective tension of the return run with low friction',
    formula: returnPull('LowFriction'),
  }),
  force<GainHeader>({
    header: 'Return run resistance braking',
    doc: 'effective tension of the return run with low friction, loaded belt braked',
    formula:
      '{Return run resistance low friction}+' +
      '({Effective tension braking}-{Effective tension low friction})*{Return share}',
    source: 'arithmetic: what braking adds acts where the masses are',
  }),
  force<GainHeader>({
    header: 'Return run resistance braking empty',
    doc: 'effective tension of the return run with low friction, empty belt braked',
    formula: `{Return run resistance low friction}-${inertia('empty', 'BrakeDeceleration')}*{Return share empty}`,
    source: 'arithmetic: what braking adds acts where the masses are',
  }),
  force<GainHeader>({
    header: 'Return run resistance at rest',
    doc: 'weight of the belt on the return run: what its tension gains from head to tail at rest',
    formula: '-{Belt mass used}*Gravity*{Lift}',
  }),
]);
