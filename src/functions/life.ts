import { define, Refusal } from '../formula/define.ts';
import type { Parameter } from '../formula/parameter.ts';

/** How long a joint has run, and when it is due. Dates are serial numbers of days, as cells hold them. */

/** The Julian year. */
const meanYear = 365.25;

const installed = { kind: 'date', min: 1, doc: 'date on which the joint was installed' } as const satisfies Parameter;
const hoursPerYear = {
  kind: 'hoursPerYear',
  above: 0,
  max: 8784,
  doc: 'running hours per year',
} as const satisfies Parameter;
const daysPerYear = {
  kind: 'daysPerYear',
  min: 365,
  max: 366,
  default: meanYear,
  doc: 'calendar days that a year of running hours is spread over',
} as const satisfies Parameter;
const days = '/{hoursPerYear}*{daysPerYear}';

/**
 * How often a joint goes round in a number of running hours: in a year's, in those of its age, in those of its life.
 *
 * Every pass bends it on every pulley, so a short fast belt wears its joints sooner than a long slow one.
 */
export const passes = define({
  name: 'PASSES',
  summary: 'passes of a joint around the loop in a number of running hours',
  parameters: {
    perHour: { kind: 'perHour', min: 0, doc: 'passes per hour: speed over loop length' },
    hours: { kind: 'hours', min: 0, doc: 'running hours' },
  },
  result: { kind: 'number', doc: 'passes' },
  source: 'definition',
  example: ['=PASSES(30,3200)', 96000],
  calculate({ perHour, hours }) {
    return perHour * hours;
  },
  formula: '{perHour}*{hours}',
});

/**
 * Running hours of a joint from the day it went in to another day.
 *
 * The year's running hours are spread evenly; a plant that runs in seasons enters the hours of its meter instead.
 */
export const jointAge = define({
  name: 'JOINTAGE',
  summary: 'running hours of a joint on a date',
  parameters: {
    installed,
    day: { kind: 'date', min: 1, doc: 'date at which its age is taken' },
    hoursPerYear,
    daysPerYear,
  },
  result: { kind: 'hours', doc: 'running hours' },
  source: 'definition; year of 365.25 days',
  example: ['=JOINTAGE(45000,45487,3000)', 4000],
  calculate({ installed, day, hoursPerYear, daysPerYear }) {
    if (day < installed) throw new Refusal('day', `must not be before the joint was installed (${installed})`);
    return ((day - installed) / daysPerYear) * hoursPerYear;
  },
  formula: 'IF({day}<{installed},{refused},({day}-{installed})/{daysPerYear}*{hoursPerYear})',
});

/** More hours than any limit: stands for a limit that is not given. */
const never = '10^300';

/** The plain formula for the limits that a call writes; their cells may still be blank. */
function dueFormula(given: ReadonlySet<string>): string {
  const hours = given.has('lifeHours') ? `IF(ISBLANK({lifeHours}),${never},{lifeHours})` : never;
  const rate = given.has('passesPerHour') ? 'IF(ISBLANK({passesPerHour}),"?"+1,{lifePasses}/{passesPerHour})' : '"?"+1';
  const passes = given.has('lifePasses') ? `IF(ISBLANK({lifePasses}),${never},${rate})` : never;
  const life = `MIN(${hours},${passes})`;
  return `IF(${life}>=${never},"?"+1,{installed}+${life}${days})`;
}

/**
 * Day on which a joint reaches its life, in hours or in passes, whichever comes first.
 *
 * A limit that is left out, or whose cell is blank, does not count; one of the two must be given. A life in passes
 * needs to know how many an hour brings.
 */
export const dueDate = define({
  name: 'DUEDATE',
  summary: 'date on which a joint reaches its life in hours or passes, whichever comes first',
  parameters: {
    installed,
    hoursPerYear,
    lifeHours: { kind: 'hours', above: 0, optional: true, doc: 'expected life of a joint in running hours' },
    lifePasses: { kind: 'number', above: 0, optional: true, doc: 'expected life of a joint in passes' },
    passesPerHour: { kind: 'perHour', above: 0, optional: true, doc: 'passes per hour, needed with a life in passes' },
    daysPerYear,
  },
  result: { kind: 'date', doc: 'date, as a serial number' },
  source: 'definition; year of 365.25 days',
  example: ['=DUEDATE(45000,3000,12000,270000,30)', 46095.75],
  calculate({ installed, hoursPerYear, lifeHours, lifePasses, passesPerHour, daysPerYear }) {
    if (lifePasses !== undefined && passesPerHour === undefined)
      throw new Refusal('passesPerHour', 'must be given with a life in passes', '#VALUE!');
    const byPasses = lifePasses === undefined || passesPerHour === undefined ? undefined : lifePasses / passesPerHour;
    const life = Math.min(lifeHours ?? Number.POSITIVE_INFINITY, byPasses ?? Number.POSITIVE_INFINITY);
    if (life === Number.POSITIVE_INFINITY)
      throw new Refusal('lifeHours', 'must be given if a life in passes is not', '#VALUE!');
    return installed + (life / hoursPerYear) * daysPerYear;
  },
  formula: dueFormula,
});

/**
 * Day on which a new joint has run its first hours, to be looked at and tightened again. How many hours: the plates'
 * supplier says.
 */
export const retightenDate = define({
  name: 'RETIGHTENDATE',
  summary: 'date to inspect and re-tighten a new joint',
  parameters: {
    installed,
    hoursPerYear,
    firstHours: { kind: 'hours', min: 0, doc: 'running hours after which it is re-tightened' },
    daysPerYear,
  },
  result: { kind: 'date', doc: 'date, as a serial number' },
  source: 're-tightening after the first hours: common practice, no source',
  example: ['=RETIGHTENDATE(45000,2922,24)', 45003],
  calculate({ installed, hoursPerYear, firstHours, daysPerYear }) {
    return installed + (firstHours / hoursPerYear) * daysPerYear;
  },
  formula: `{installed}+{firstHours}${days}`,
});
