import { serviceNeeds } from '../src/functions/series.ts';
import { type Column, declareSheet } from '../src/sheet/declaration.ts';
import { needing } from '../src/sheet/needing.ts';
import { beltNames, withNames } from './also-called.ts';
import { assumptionValues } from './assumptions.ts';
import { plateSeries } from './plate-series.ts';
import { unitValues } from './units.ts';

const plate = (header: string): string => `INDEX({Plate series.${header}},{Series row})`;

const short = { metric: 0, us: 2 } as const;
const fine = { metric: 1, us: 3 } as const;

const inputs: readonly Column[] = [
  { header: 'Belt', kind: 'text', doc: "the belt's name or number; each belt has its own" },
  { header: 'Area', kind: 'text', doc: 'where in the plant' },
  { header: 'Duty', kind: 'text', doc: 'what it carries' },
  { header: 'Width', kind: 'length', above: 0, digits: short, doc: "the belt's width" },
  { header: 'Construction', kind: 'text', doc: 'the designation, as "EP 400/3 4+2" or "1000 EP 630/4 6/2 Y"' },
  { header: 'Thickness', kind: 'length', above: 0, digits: fine, doc: 'of the whole belt' },
  { header: 'Carcass thickness', kind: 'length', above: 0, digits: fine, doc: 'without covers; the cord diameter of a steel cord belt' },
  { header: 'Top cover', kind: 'length', min: 0, digits: fine, doc: 'cover on the carrying side' },
  { header: 'Permitted tension', kind: 'lineTension', above: 0, digits: 1, doc: "the belt's own permitted working tension per width" },
  { header: 'Smallest pulley', kind: 'length', above: 0, digits: short, doc: 'the smallest pulley the belt runs over' },
  { header: 'Head pulley', kind: 'length', above: 0, digits: short, doc: 'diameter of the head pulley' },
  { header: 'Tail pulley', kind: 'length', above: 0, digits: short, doc: 'diameter of the tail pulley' },
  { header: 'Centres', kind: 'distance', above: 0, digits: 1, doc: 'from head to tail pulley' },
  { header: 'Lift', kind: 'distance', digits: 1, doc: 'rise from tail to head, negative downhill' },
  { header: 'Speed', kind: 'speed', above: 0, digits: { metric: 2, us: 0 }, doc: "the belt's speed" },
  { header: 'Power', kind: 'power', above: 0, digits: { metric: 1, us: 1 }, doc: 'motor power, all drives together' },
  { header: 'Capacity', kind: 'capacity', min: 0, digits: 0, doc: 'what it carries in an hour' },
  { header: 'Wrap', kind: 'angle', above: 0, max: 720, digits: 0, doc: 'wrap of the belt on its driven pulleys, degrees' },
  { header: 'Friction', kind: 'number', above: 0, max: 1.5, digits: 2, doc: 'between belt and driven pulley' },
  { header: 'Tension entered', kind: 'lineTension', above: 0, digits: 1, doc: 'working tension per width, when it is known' },
  { header: 'Take-up travel', kind: 'length', min: 0, digits: short, doc: 'travel still available in the take-up' },
  { header: 'Skew', kind: 'angle', min: 0, max: 60, digits: 1, doc: 'of the cut from the square line, degrees: 0 is a square joint' },
  { header: 'Plate series', kind: 'text', choices: { sheet: 'Plate series', header: 'Series' }, doc: 'of the joint' },
  { header: 'Skive', kind: 'length', min: 0, digits: fine, doc: 'cover cut away under the plates; 0 when it is not skived' },
  { header: 'Joints', kind: 'count', min: 0, max: 200, doc: 'bolted joints in the loop' },
  { header: 'Installed', kind: 'date', min: 1, doc: 'day the joint went in' },
  { header: 'Hours per year', kind: 'hoursPerYear', above: 0, max: 8784, digits: 0, doc: 'running hours in a year' },
  { header: 'Joint life', kind: 'hours', above: 0, digits: 0, doc: 'running hours that a joint is expected to last' },
  { header: 'Service', kind: 'text', choices: Object.keys(serviceNeeds), several: true, doc: 'what the material must stand, with commas between; "none" when nothing applies' },
];

/** The eight checks' columns, in the order of the verdict, with the word that Findings names them by. */
export const checkColumns = [
  { header: 'Pulley check', word: 'pulley' },
  { header: 'Carcass check', word: 'carcass' },
  { header: 'Thickness check', word: 'thickness' },
  { header: 'Tension check', word: 'tension' },
  { header: 'Edge check', word: 'edge' },
  { header: 'Take-up check', word: 'take-up' },
  { header: 'Service check', word: 'service' },
  { header: 'Age check', word: 'age' },
] as const;

/** Formulas over numbers that are given and within their declared bounds. */
const needed = needing({ columns: inputs, sheets: [plateSeries], named: [...assumptionValues, ...unitValues] });

const computed: readonly Column[] = [
  { header: 'Series row', kind: 'count', background: true, doc: 'where the plate series stands in its sheet', formula: 'IF(LEN({Plate series})=0,NA(),MATCH({Plate series},{Plate series.Series},0))' },
  { header: 'Cut length', kind: 'length', digits: fine, doc: 'along the cut, edge to edge', formula: 'SKEWLENGTH({Width},{Skew})' },
  { header: 'Edge offset', kind: 'length', digits: fine, doc: 'to measure along the edge from the square line', formula: 'SKEWOFFSET({Width},{Skew})' },
  { header: 'Belt consumed', kind: 'length', digits: fine, doc: 'belt that cutting two square ends to the skew takes from the loop', formula: 'SKEWLOSS({Width},{Skew})' },
  { header: 'Plates', kind: 'count', doc: 'in one joint', formula: `PLATECOUNT({Width},{Skew},${plate('Pitch')},${plate('Plate size')},${plate('Least edge')})` },
  { header: 'Edge left', kind: 'length', digits: fine, doc: 'clear distance at each end of the cut, plates centred', formula: `PLATEEDGE({Width},{Skew},${plate('Pitch')},${plate('Plate size')},${plate('Least edge')})` },
  { header: 'Bolts', kind: 'count', doc: 'in one joint', formula: needed(`{Plates}*${plate('Bolts per plate')}`) },
  { header: 'Bolt length', kind: 'length', digits: short, doc: "by the clamped thickness, from the series' figures", formula: `IF(ISNUMBER(${plate('Changing thickness')}),IF(ROUND({Clamped thickness}-${plate('Changing thickness')},9)>0,${needed(plate('Longer bolt'))},${needed(plate('Bolt length'))}),${needed(plate('Bolt length'))})` },
  { header: 'Strip per piece', kind: 'length', digits: fine, doc: 'length of one strip', formula: 'STRIPLENGTH({Width},{Skew},StripOverhang)' },
  { header: 'Strip per joint', kind: 'length', digits: fine, doc: 'length of all strips of one joint', formula: needed('StripPieces*{Strip per piece}') },
  { header: 'Joint pulley', kind: 'length', digits: fine, doc: 'least pulley for the joint at its skew', formula: `JOINTPULLEY(${plate('Square pulley')},{Skew},${plate('Pulley at 45')})` },
  { header: 'Carcass pulley', kind: 'length', digits: fine, doc: "least pulley for the belt's own carcass, rounded to the series and stepped by use and group", formula: `CARCASSPULLEY(CARCASSMATERIAL({Construction}),${needed('{Carcass thickness}*MillimetresPerShort')},${needed('{Working tension}/{Permitted tension}*100')},IF(ISTEXT(PulleyGroup),PulleyGroup,"?"))/MillimetresPerShort` },
  { header: 'Tension from', kind: 'text', doc: 'which route gives the working tension: entered first, then power and speed, then resistances', formula: 'IF(NOT(ISBLANK({Tension entered})),"entered",IF(NOT(ISBLANK({Power})),"power",IF(NOT(ISBLANK({Capacity})),"resistances","not known")))' },
  {
    header: 'Belt pull', kind: 'force', digits: 0, doc: 'pull that the drive gives to the belt; blank routes are not used',
    formula: `IF({Tension from}="power",${needed('{Power}/{Speed}*PullPerPower*DriveEfficiency')},IF({Tension from}="resistances",${needed('BELTPULL({Centres},{Lift},CarryRollers,ReturnRollers,{Width}*{Thickness}*BeltDensity,{Capacity}/{Speed}*LoadPerRate,RollingFriction,LENGTHFACTOR(ROUND({Centres}*MetresPerLong,9)),Gravity)*StartFactor')},IF({Tension from}="entered","",NA())))`,
    source: 'power over speed; DIN 22101 / ISO 5048 with the length factor',
  },
  {
    header: 'Working tension', kind: 'lineTension', digits: 1, doc: 'greatest tension per width that the joint sees',
    formula: `IF({Tension from}="entered",${needed('{Tension entered}')},${needed('ABS({Belt pull})*(1+WRAPFACTOR({Wrap},{Friction}))/{Width}')})`,
    source: 'Euler-Eytelwein: slack side plus pull',
  },
  { header: 'Plate force', kind: 'force', digits: 0, doc: 'belt tension on one plate', formula: 'PLATEFORCE({Working tension},{Width},{Plates})' },
  { header: 'Pull used', kind: 'ratio', percent: true, digits: 0, doc: "working tension over the series' rating", formula: needed(`{Working tension}/${plate('Tension rating')}`) },
  { header: 'Clamped thickness', kind: 'length', digits: fine, doc: 'belt less skive, between the plates', formula: needed('{Thickness}-{Skive}', '{Skive}<{Thickness}') },
  { header: 'Loop length', kind: 'distance', digits: 2, doc: 'of the belt, open loop over head and tail pulley', formula: needed('BELTLOOP({Centres}*ShortPerLong,{Head pulley},{Tail pulley})/ShortPerLong') },
  { header: 'Passes per hour', kind: 'frequency', digits: 1, doc: 'how often a joint goes round in an hour', formula: needed('{Speed}*TravelPerHour/{Loop length}') },
  { header: 'Joint age', kind: 'hours', digits: 0, doc: 'running hours since the joint went in', formula: needed('(ReviewDate-{Installed})/DaysPerYear*{Hours per year}', '{Installed}<=ReviewDate') },
  { header: 'Crew hours', kind: 'hours', digits: 1, doc: 'people times hours for one joint', formula: needed('CrewHoursFixed+{Plates}*CrewHoursPerPlate') },
  { header: 'Outage hours', kind: 'hours', digits: 1, doc: 'belt at a stand for one joint', formula: needed('OutageHoursFixed+{Crew hours}/CrewSize') },
  { header: 'Parts cost', kind: 'money', digits: 2, doc: 'plates, bolts and strip of one joint, before packs', formula: needed(`{Plates}*${plate('Plate price')}+{Bolts}*${plate('Bolt price')}+{Strip per joint}*${plate('Strip price')}`) },
  { header: 'Joint cost', kind: 'money', digits: 2, doc: 'parts and crew of one joint', formula: needed('{Parts cost}+{Crew hours}*CrewRate') },
  { header: 'Due', kind: 'date', doc: 'day on which the joint reaches its life', formula: needed('{Installed}+{Joint life}/{Hours per year}*DaysPerYear') },
  { header: 'Pulley check', kind: 'text', doc: "smallest pulley against the joint's least pulley", formula: 'LEASTCHECK({Smallest pulley},{Joint pulley},TightMargin)' },
  { header: 'Carcass check', kind: 'text', doc: "smallest pulley against the belt's own carcass", formula: 'LEASTCHECK({Smallest pulley},{Carcass pulley},TightMargin)' },
  { header: 'Thickness check', kind: 'text', doc: "clamped thickness against the series' range", formula: `RANGECHECK({Clamped thickness},${needed(plate('Least thickness'))},${needed(plate('Greatest thickness'))},TightMargin)` },
  { header: 'Tension check', kind: 'text', doc: "working tension against the series' rating", formula: `MOSTCHECK({Working tension},${needed(plate('Tension rating'))},TightMargin)` },
  { header: 'Edge check', kind: 'text', doc: "edge distance left against the series' limits", formula: `RANGECHECK({Edge left},${plate('Least edge')},${needed(plate('Greatest edge'))},TightMargin)` },
  { header: 'Take-up check', kind: 'text', doc: 'what the joint consumes against the belt that the take-up gives', formula: `MOSTCHECK({Belt consumed},${needed('{Take-up travel}*TakeUpShare')},TightMargin)` },
  { header: 'Service check', kind: 'text', doc: "service against the series' material", formula: `IF(ISNUMBER({Series row}),SERVICECHECK({Service},${['Flame resistant', 'Non-magnetic', 'Corrosion resistant', 'Food'].map(plate).join(',')}),"not known")` },
  { header: 'Age check', kind: 'text', doc: 'joint age against its expected life', formula: `MOSTCHECK({Joint age},${needed('{Joint life}')},TightMargin)` },
  { header: 'Verdict', kind: 'text', doc: 'the worst of the eight checks: fails, not known, tight, fits', formula: `WORSTVERDICT(${checkColumns.map(({ header }) => `{${header}}`).join(',')})` },
  { header: 'Findings', kind: 'text', doc: 'the checks that do not simply fit', formula: `MID(${checkColumns.map(({ header, word }) => `IF({${header}}="fits","","; ${word} "&{${header}})`).join('&')},3,400)` },
];

/** The fleet: one row a belt, inputs first, what the book works out after them. */
export const belts = declareSheet({
  name: 'Belts',
  purpose: 'The fleet, one row a belt: what you know on the left, what each joint needs on the right',
  record: 'belt',
  key: 'Belt',
  columns: withNames([...inputs, ...computed], beltNames),
});
