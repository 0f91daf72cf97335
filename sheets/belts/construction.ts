import { besideWord, carcassTable } from '../values/file-tables.ts';
import { polyamideCodes } from '../../src/functions/belt-tables.ts';
import { columns } from '../../src/sheet/declaration.ts';
import {
  carcassMaterialInFile,
  coversInFile,
  pliesInFile,
  strengthInFile,
  topCoverInFile,
} from './designation-in-file.ts';
import { fine } from './column-digits.ts';
import { carcassFactorFormula } from '../values/tables.ts';

/** Each way to the carcass's thickness; one that says nothing stands back behind the one that is used. */
const carcassWays = [
  'IF(ISBLANK({Carcass thickness}),{Carcass used},{Carcass thickness})',
  'IF({Carcass by covers}="",{Carcass used},{Carcass by covers})',
  'IF({Carcass by plies}="",{Carcass used},{Carcass by plies})',
].join(',');

const isPolyamide = `OR(${polyamideCodes.map((code) => `{Carcass material}="${code}"`).join(',')})`;

/**
 * What the belt's designation and measures say of it where the record does not: each figure beside where it is from.
 */
export const constructionColumns = columns([
  {
    header: 'Carcass material',
    kind: 'text',
    doc: 'code read from the construction',
    formula: 'CARCASSMATERIAL({Construction})',
    inFile: carcassMaterialInFile,
  },
  {
    header: 'Belt strength',
    formerly: 'Strength',
    kind: 'lineTension',
    digits: 0,
    doc: 'nominal strength, read from the construction',
    formula: 'IFERROR(BELTSTRENGTH({Construction})*TensionPerMetric,"")',
    inFile: strengthInFile,
  },
  {
    header: 'Plies',
    kind: 'count',
    doc: 'read from the construction',
    formula: 'IFERROR(BELTPLIES({Construction}),"")',
    inFile: pliesInFile,
  },
  {
    header: 'Covers',
    kind: 'length',
    digits: fine,
    doc: 'both together, read from the construction',
    formula: 'IFERROR((TOPCOVER({Construction})+BOTTOMCOVER({Construction}))/MillimetresPerShort,"")',
    inFile: coversInFile,
  },
  {
    header: 'Designated cover',
    kind: 'length',
    digits: fine,
    doc: 'top cover, read from the construction',
    formula: 'IFERROR(TOPCOVER({Construction})/MillimetresPerShort,"")',
    inFile: topCoverInFile,
  },
  {
    header: 'Cover used',
    kind: 'length',
    digits: fine,
    doc: 'top cover as entered, otherwise read from the construction',
    formula: 'IF(ISBLANK({Top cover}),{Designated cover},{Top cover})',
    inFile: { min: 0 },
  },
  {
    header: 'Cover left',
    kind: 'length',
    digits: fine,
    doc: 'top cover left under the plates; empty without a skive',
    formula: 'IF({Skive depth}=0,"",{Cover used}-{Skive depth})',
  },
  {
    header: 'Covers used',
    kind: 'length',
    digits: fine,
    background: true,
    doc: 'both covers together; an entered top cover takes precedence over the designation',
    formula: '{Covers}-{Designated cover}+{Cover used}',
    emptyWithout: ['{Covers}', '{Designated cover}', '{Cover used}'],
  },
  {
    header: 'Carcass by covers',
    kind: 'length',
    digits: fine,
    background: true,
    doc: 'thickness less both covers',
    formula: 'IF(COUNT({Thickness},{Covers used})=2,{Thickness}-{Covers used},"")',
    must: ['{Covers used}<{Thickness}'],
  },
  {
    header: 'Carcass by plies',
    kind: 'length',
    digits: fine,
    background: true,
    doc: 'estimated from the plies or cords of the designation',
    formula:
      'IFERROR(IF({Carcass material}="St",CARCASSTHICKNESS("St",{Belt strength}/TensionPerMetric),' +
      'CARCASSTHICKNESS({Carcass material},{Belt strength}/TensionPerMetric,{Plies},PlyBase*MillimetresPerShort,' +
      `IF(${isPolyamide},PlyPerStrengthPolyamide,PlyPerStrength)))/MillimetresPerShort,"")`,
  },
  {
    header: 'Carcass from',
    kind: 'text',
    doc:
      'source of the carcass thickness: entered; otherwise the larger of thickness less covers, which wear ' +
      'reduces, and ' +
      'designation',
    formula:
      'IF(NOT(ISBLANK({Carcass thickness})),"entered",IF(ISERROR({Carcass by covers}),"thickness less covers",' +
      'IF(COUNT({Carcass by covers},{Carcass by plies})=0,"not known",IF(COUNT({Carcass by plies})=0,"thickness less ' +
      'covers",IF(COUNT({Carcass by covers})=0,"designation",IF({Carcass by covers}<{Carcass by plies},"designation",' +
      '"thickness less covers"))))))',
  },
  {
    header: 'Carcass used',
    kind: 'length',
    digits: fine,
    doc: 'carcass thickness as entered, otherwise derived',
    formula:
      'IF({Carcass from}="thickness less covers",{Carcass by covers},IF({Carcass from}="designation",' +
      '{Carcass by plies},{Carcass thickness}))',
  },
  {
    header: 'Carcass difference',
    kind: 'ratio',
    percent: true,
    digits: 0,
    background: true,
    source: 'arithmetic',
    doc: 'difference between the methods for the carcass thickness, over the largest; empty with fewer than two',
    formula:
      'IF(AND(COUNT({Carcass thickness},{Carcass by covers},{Carcass by plies})<2,' +
      'NOT(ISERROR({Carcass by covers}))),"",' +
      // Rounded: ways that agree differ in their last digit, and by another one in another unit system.
      `ROUND(1-MIN(${carcassWays})/MAX(${carcassWays}),9))`,
  },
  {
    header: 'Top cover entered',
    kind: 'length',
    digits: fine,
    background: true,
    source: 'definition',
    doc: 'as entered; 0 without one',
    formula: '{Top cover}',
    optional: { 'Top cover': 0 },
  },
  {
    header: 'Layers entered',
    kind: 'length',
    digits: fine,
    background: true,
    source: 'arithmetic',
    doc: 'top cover and carcass together, as entered; 0 without either',
    formula: '{Top cover entered}+{Carcass thickness}',
    optional: { 'Carcass thickness': 0 },
  },
  {
    header: 'Belt rating from',
    formerly: 'Permitted from',
    kind: 'text',
    doc: 'source of the belt rating: entered, or derived from the strength in the designation',
    formula: 'IF(NOT(ISBLANK({Belt rating})),"entered",IF(ISNUMBER({Belt strength}),"designation","not known"))',
  },
  {
    header: 'Belt rating used',
    formerly: 'Permitted used',
    kind: 'lineTension',
    digits: 1,
    doc: 'belt rating as entered, otherwise nominal strength over the safety factor',
    formula:
      'IF({Belt rating from}="designation",PERMITTEDTENSION({Belt strength},IF({Carcass material}="St",' +
      'SafetySteelCord,SafetyFabric)),{Belt rating})',
    inFile: { above: 0 },
  },
  {
    header: 'Carcass rating',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc:
      'tension that the pulley steps of the carcass are counted from: nominal strength over CarcassSafety, otherwise ' +
      'the belt rating',
    formula: 'IF(ISNUMBER({Belt strength}),{Belt strength}/CarcassSafety,{Belt rating used})',
    source: 'DIN 22101, from memory',
  },
  {
    header: 'Maximum belt rating',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc: 'nominal strength over the minimum safety factor: no belt is rated for more',
    formula: 'PERMITTEDTENSION({Belt strength},IF({Carcass material}="St",SafetySteelCordMinimum,SafetyFabricMinimum))',
    emptyWithout: ['{Belt strength}'],
    source: 'DIN 22101, from memory',
    inFile: { above: 0 },
  },
  {
    header: 'Load at belt rating',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc:
      'maximum load of the belt if nothing else is known of its tension: belt rating as ' +
      'entered, otherwise the maximum belt rating',
    formula: 'IF({Belt rating from}="designation",{Maximum belt rating},{Belt rating})',
  },
  {
    header: 'Belt mass from',
    formerly: 'Mass from',
    kind: 'text',
    doc: 'source of the belt mass: entered, or derived from width, thickness and BeltDensity',
    formula: 'IF(NOT(ISBLANK({Belt mass})),"entered",IF(COUNT({Width},{Thickness})=2,"thickness","not known"))',
  },
  {
    header: 'Belt mass used',
    formerly: 'Mass used',
    kind: 'lineMass',
    digits: { metric: 1, us: 2 },
    doc: 'belt mass as entered, otherwise derived',
    formula:
      'IF({Belt mass from}="entered",{Belt mass},IF({Belt mass from}="thickness",{Width}*{Thickness}*BeltDensity,""))',
  },
  {
    header: 'Carcass factor',
    kind: 'number',
    background: true,
    doc: 'minimum pulley over the carcass thickness',
    formula: carcassFactorFormula('{Carcass material}'),
    inFile: { formula: besideWord(carcassTable, '{Carcass material}') },
  },
]);
