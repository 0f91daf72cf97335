import { serviceNeeds } from '../functions/series.ts';
import { checkColumns } from '../../sheets/belts/index.ts';
import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { type Belt, beltColumn } from '../records/belt.ts';
import { severalWords } from '../records/cell-issue.ts';
import { type Check, least, most, numberCheck, ofBelt, ofSeries, shown, type Side } from './check.ts';
import {
  cures,
  degrees,
  greatestSkewCure,
  leastSkew,
  nearestSkews,
  otherSeries,
  outcome,
  type Sought,
  standardPulleyCure,
} from './cures.ts';
import { carcassPulleyOf, jointPulleyOf } from '../records/belt-pulleys.ts';
import { amount, listed, type Measure } from '../sheet/words.ts';

/** The eight checks of a belt, in the order of its verdict. DEVELOPERS.md tells how to add one. */

const atSkew = (belt: Belt): string => `at a skew of ${degrees(belt.number('Skew') ?? 0)}`;
const seriesName = (belt: Belt): string => String(belt.value('Plate series'));

export const pulleyCheck = numberCheck({
  name: 'pulley',
  column: 'Pulley check',
  look: 'Smallest pulley',
  given: (belt) => ofBelt('Governing pulley', `the ${jointPulleyOf(belt)?.name ?? 'smallest'} pulley`)(belt),
  limits: [
    least((belt) => ofBelt('Joint pulley', `the least pulley of a ${seriesName(belt)} joint ${atSkew(belt)}`)(belt)),
  ],
  cures: (sought) => [
    ...leastSkew(sought),
    ...otherSeries(sought),
    ...standardPulleyCure(sought, jointPulleyOf(sought.belt)),
  ],
});

/** Groups of the pulley that stand for less tension, for which the carcass check would pass. */
function otherGroups(sought: Sought): string[] {
  const groups = assumptionValues.find(({ name }) => name === 'PulleyGroup')?.choices ?? [];
  const present = sought.belt.book.named('PulleyGroup');
  const passing = groups.filter((group) => group !== present && cures(sought, { named: { PulleyGroup: group } }));
  const [first] = passing;
  if (first === undefined) return [];
  return [
    `If the smallest pulley is of group ${listed(passing, 'or')} (see PulleyGroup in Assumptions, which counts for ` +
      `all belts), it will do: ${outcome(sought, { named: { PulleyGroup: first } })}.`,
  ];
}

export const carcassCheck = numberCheck({
  name: 'carcass',
  column: 'Carcass check',
  look: 'Smallest pulley',
  given: (belt) => ofBelt('Carcass diameter', `the ${carcassPulleyOf(belt)?.name ?? 'smallest'} pulley`)(belt),
  limits: [least(ofBelt('Carcass pulley', "the least pulley for the belt's own carcass"))],
  remark(belt) {
    const listed = carcassPulleyOf(belt);
    return (
      `${listed === undefined ? '' : `It is of group ${listed.group} under ${listed.tension}. `}Skew does not ` +
      `help the carcass.`
    );
  },
  cures: (sought) => [...standardPulleyCure(sought, carcassPulleyOf(sought.belt)), ...otherGroups(sought)],
});

/** Depths of skive that bring the clamped thickness into the series' range, in whole steps of what the column shows. */
function skiveRange(sought: Sought): string[] {
  const { belt, verdict } = sought;
  const [thickness, lower, upper] = [
    belt.number('Thickness'),
    belt.ofSeries('Least thickness'),
    belt.ofSeries('Greatest thickness'),
  ];
  if (thickness === undefined || typeof lower !== 'number' || typeof upper !== 'number') return [];
  const margin = verdict === 'tight' ? (belt.named('TightMargin') ?? 0) : 0;
  const column = beltColumn('Skive');
  const step = 10 ** -(typeof column.digits === 'object' ? column.digits[belt.units] : (column.digits ?? 1));
  const cover = belt.number('Top cover') ?? Infinity;
  const from = Math.ceil(Math.max(0, thickness - upper * (1 - margin)) / step - 1e-9) * step;
  const to = Math.floor((thickness - lower * (1 + margin)) / step + 1e-9) * step;
  const skive = (depth: number): { readonly inputs: { readonly Skive: number } } => ({ inputs: { Skive: depth } });
  const words = (depth: number): string => amount(depth, column, belt.units);
  if (from > to) return [];
  if (from > cover)
    return [`Skiving would have to take at least ${words(from)}, more than the top cover of ${words(cover)}.`];
  const deepest = Math.min(to, Math.floor(cover / step + 1e-9) * step);
  const ends = [from, deepest].filter((depth) => cures(sought, skive(depth)));
  const [first = from, last = first] = ends;
  if (ends.length === 0) return [];
  return [
    `Skive ${first === last ? words(first) : `${words(first)} to ${words(last)}`}: ${outcome(sought, skive(first))}.`,
  ];
}

export const thicknessCheck = numberCheck({
  name: 'thickness',
  column: 'Thickness check',
  look: 'Thickness',
  given: ofBelt('Clamped thickness', 'the clamped thickness'),
  limits: [
    least((belt) => ofSeries('Least thickness', `the least thickness of series ${seriesName(belt)}`)(belt)),
    most((belt) => ofSeries('Greatest thickness', `the greatest thickness of series ${seriesName(belt)}`)(belt)),
  ],
  cures: (sought) => [...otherSeries(sought), ...skiveRange(sought)],
});

/** What the present series carries, for a tension that can be brought down. */
function carried({ belt, verdict }: Sought): string[] {
  const rating = belt.ofSeries('Tension rating');
  if (typeof rating !== 'number') return [];
  const margin = verdict === 'tight' ? (belt.named('TightMargin') ?? 0) : 0;
  const measure = beltColumn('Working tension');
  return [
    `Series ${seriesName(belt)} carries ` +
      `${amount(rating * (1 - margin), measure, belt.units)}${margin > 0 ? ' with the ' + 'margin' : ''}: bring the ` +
      `working tension (${belt.text('Tension from')}) down to that.`,
  ];
}

export const tensionCheck = numberCheck({
  name: 'tension',
  column: 'Tension check',
  look: 'Plate series',
  given: (belt) =>
    ofBelt(
      'Working tension',
      `the working tension ` +
        `(${belt.text('Tension from') === 'entered' ? 'as entered' : `from ${belt.text('Tension from')}`})`,
    )(belt),
  limits: [most((belt) => ofSeries('Tension rating', `the rating of series ${seriesName(belt)}`)(belt))],
  remark: (belt) =>
    belt.text('Tension from') === 'permitted'
      ? "That is the belt's own permitted tension, as a last resort: enter Capacity or Power with what goes with " +
        'them, or the tension itself, for a surer figure.'
      : '',
  cures: (sought) => [...otherSeries(sought), ...carried(sought)],
});

export const edgeCheck = numberCheck({
  name: 'edge',
  column: 'Edge check',
  look: 'Skew',
  given: (belt) => ofBelt('Edge left', `the edge distance left ${atSkew(belt)}`)(belt),
  limits: [
    least((belt) => ofSeries('Least edge', `the least edge distance of series ${seriesName(belt)}`)(belt)),
    most((belt) => ofSeries('Greatest edge', `the greatest edge distance of series ${seriesName(belt)}`)(belt)),
  ],
  cures: (sought) => [...nearestSkews(sought), ...otherSeries(sought)],
});

/** The belt that the take-up gives: its travel times what one unit of it gives. */
function takeUpBelt(belt: Belt): Side {
  const [travel, share] = [belt.number('Take-up travel'), belt.named('TakeUpShare')];
  return {
    label: 'the belt that the take-up gives',
    measure: beltColumn('Take-up travel'),
    value: travel === undefined || share === undefined ? undefined : travel * share,
  };
}

/** The travel that would be enough, rounded up to what the column shows. */
function neededTravel(sought: Sought): string[] {
  const { belt, verdict } = sought;
  const [consumed, share] = [belt.number('Belt consumed'), belt.named('TakeUpShare')];
  if (consumed === undefined || share === undefined) return [];
  const column = beltColumn('Take-up travel');
  const step = 10 ** -(typeof column.digits === 'object' ? column.digits[belt.units] : (column.digits ?? 0));
  const least = consumed / share / (verdict === 'tight' ? 1 - (belt.named('TightMargin') ?? 0) : 1);
  const travel = Math.ceil(least / step - 1e-9) * step;
  const change = { inputs: { 'Take-up travel': travel } };
  return cures(sought, change)
    ? [
        `Make ${amount(travel, column, belt.units)} of travel available in the take-up, or let in as much belt: ` +
          `${outcome(sought, change)}.`,
      ]
    : [];
}

export const takeUpCheck = numberCheck({
  name: 'take-up',
  column: 'Take-up check',
  look: 'Take-up travel',
  given: (belt) => ofBelt('Belt consumed', `the belt consumed ${atSkew(belt)}`)(belt),
  limits: [most(takeUpBelt)],
  cures: (sought) => [...greatestSkewCure(sought), ...neededTravel(sought)],
});

const flagColumns = {
  flameResistant: 'Flame resistant',
  nonMagnetic: 'Non-magnetic',
  corrosionResistant: 'Corrosion resistant',
  food: 'Food',
} as const;
const isService = (word: string): word is keyof typeof serviceNeeds => Object.hasOwn(serviceNeeds, word);

/** The series' flags that a belt's service calls for, by column. */
function calledFor(belt: Belt): string[] {
  const needs = severalWords(belt.text('Service').toLowerCase()).flatMap((word) =>
    isService(word) ? (serviceNeeds[word] ?? []) : [],
  );
  return [...new Set(needs)].map((need) => flagColumns[need]);
}

const flagText = (belt: Belt, columns: readonly string[]): string =>
  columns
    .map((column) => {
      const value = belt.ofSeries(column);
      return `${column}: ${typeof value === 'string' ? value : 'not given'}`;
    })
    .join(', ');

const serviceMeasure: Measure = { kind: 'text' };

export const serviceCheck: Check = {
  name: 'service',
  column: 'Service check',
  look: 'Plate series',
  given: (belt) => ({
    label: 'the service',
    value: belt.text('Service') === '' ? null : belt.text('Service'),
    kind: serviceMeasure.kind,
    unit: '',
  }),
  limit: (belt) => ({
    label: `the material of series ${seriesName(belt)}`,
    value: calledFor(belt).length === 0 ? null : flagText(belt, calledFor(belt)),
    kind: serviceMeasure.kind,
    unit: '',
  }),
  message(belt) {
    const lacking = calledFor(belt).filter((column) => String(belt.ofSeries(column)).toLowerCase() === 'no');
    return (
      `The service, "${belt.text('Service')}", calls for plates that series ${seriesName(belt)} does not have ` +
      `(${flagText(belt, lacking)}).`
    );
  },
  cures: (sought) => otherSeries(sought),
};

/** The day of the next joint: how long ago or ahead it is due, and what renewing does. */
function renewed(sought: Sought): string[] {
  const { belt, verdict } = sought;
  const review = belt.book.named('ReviewDate');
  const due = shown(belt, 'Due');
  const change = { inputs: { Installed: review } };
  const renew = cures(sought, change)
    ? [`Renew the joint and enter the day in Installed: ${outcome(sought, change)}.`]
    : [];
  return verdict === 'tight'
    ? [`Plan to renew the joint by ${due}, and enter the day in Installed then.`, ...renew.slice(1)]
    : renew;
}

export const ageCheck = numberCheck({
  name: 'age',
  column: 'Age check',
  look: 'Installed',
  given: ofBelt('Joint age', 'the age of the joint in running hours'),
  limits: [
    most((belt) =>
      ofBelt(
        'Life in hours',
        belt.text('Due by') === 'passes' ? 'its expected life in passes, as hours' : 'its expected life',
      )(belt),
    ),
  ],
  remark: (belt) =>
    `It was put in on ${shown(belt, 'Installed')} and ${belt.verdict('Age check') === 'fails' ? 'was' : 'is'} due on ` +
    `${shown(belt, 'Due')}.`,
  cures: renewed,
});

export const checks: readonly Check[] = [
  pulleyCheck,
  carcassCheck,
  thicknessCheck,
  tensionCheck,
  edgeCheck,
  takeUpCheck,
  serviceCheck,
  ageCheck,
];

for (const [index, { header, word }] of checkColumns.entries()) {
  if (checks[index]?.column !== header || checks[index]?.name !== word)
    throw new Error(`the check for the column ${header} is missing or out of order`);
}
