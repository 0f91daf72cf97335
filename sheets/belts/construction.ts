import { columns } from '../../src/sheet/declaration.ts';
import { fine } from './inputs.ts';
import { carcassFactorFormula } from '../values/tables.ts';

/**
 * What the belt's designation and measures say of it where the record does not: each figure beside where it is from.
 */
export const constructionColumns = columns([
  {
    header: 'Carcass material',
    kind: 'text',
    doc: 'code read from the construction',
    formula: 'CARCASSMATERIAL({Construction})',
  },
  {
    header: 'Strength',
    kind: 'lineTension',
    digits: 0,
    doc: 'type strength, read from the construction',
    formula: 'IFERROR(BELTSTRENGTH({Construction})*TensionPerMetric,"")',
  },
  {
    header: 'Plies',
    kind: 'count',
    doc: 'read from the construction',
    formula: 'IFERROR(BELTPLIES({Construction}),"")',
  },
  {
    header: 'Covers',
    kind: 'length',
    digits: fine,
    doc: 'both together, read from the construction',
    formula: 'IFERROR((TOPCOVER({Construction})+BOTTOMCOVER({Construction}))/MillimetresPerShort,"")',
  },
  {
    header: 'Carcass from',
    kind: 'text',
    doc: 'where its thickness is from: entered; derived from the thickness less covers; derived from the designation',
    formula:
      'IF(NOT(ISBLANK({Carcass thickness})),"entered",IF(COUNT({Thickness},{Covers})=2,"thickness less ' +
      'covers",IF(ISNUMBER({Strength}),IF({Carcass ' +
      'material}="St","designation",IF(ISNUMBER({Plies}),"designation","not known")),"not known")))',
  },
  {
    header: 'Carcass used',
    kind: 'length',
    digits: fine,
    doc: 'carcass thickness as entered, else derived',
    formula:
      'IF({Carcass from}="entered",{Carcass thickness},' +
      'IF({Carcass from}="thickness less covers",{Thickness}-{Covers},IF({Carcass from}="designation",' +
      'IF({Carcass material}="St",CARCASSTHICKNESS("St",{Strength}/TensionPerMetric),' +
      'CARCASSTHICKNESS({Carcass material},{Strength}/TensionPerMetric,{Plies},PlyBase*MillimetresPerShort,' +
      'PlyPerStrength))/MillimetresPerShort,{Carcass thickness})))',
    must: ['{Covers}<{Thickness}'],
  },
  {
    header: 'Permitted from',
    kind: 'text',
    doc: 'where the permitted tension is from: entered; derived from the strength in the designation',
    formula: 'IF(NOT(ISBLANK({Permitted tension})),"entered",IF(ISNUMBER({Strength}),"designation","not known"))',
  },
  {
    header: 'Permitted used',
    kind: 'lineTension',
    digits: 1,
    doc: 'permitted tension as entered, else type strength over the safety factor',
    formula:
      'IF({Permitted from}="designation",PERMITTEDTENSION({Strength},IF({Carcass material}="St",SafetySteelCord,' +
      'SafetyFabric)),{Permitted tension})',
  },
  {
    header: 'Mass from',
    kind: 'text',
    doc: 'where the belt mass is from: entered; derived from width, thickness and BeltDensity',
    formula: 'IF(NOT(ISBLANK({Belt mass})),"entered",IF(COUNT({Width},{Thickness})=2,"thickness","not known"))',
  },
  {
    header: 'Mass used',
    kind: 'lineMass',
    digits: { metric: 1, us: 2 },
    doc: 'belt mass as entered, else derived',
    formula: 'IF({Mass from}="entered",{Belt mass},IF({Mass from}="thickness",{Width}*{Thickness}*BeltDensity,""))',
  },
  {
    header: 'Carcass factor',
    kind: 'number',
    background: true,
    doc: 'least pulley over the carcass thickness',
    formula: carcassFactorFormula('{Carcass material}'),
  },
]);
