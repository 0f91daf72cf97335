import { belts } from '../../sheets/belts/index.ts';
import type { BeltInput } from '../../sheets/belts/inputs.ts';
import { Refusal } from '../formula/define.ts';
import { readDesignation } from '../functions/designation.ts';
import { type Belt, beltColumn } from '../records/belt.ts';
import type { Finding } from '../records/finding.ts';
import { recordName } from '../records/input-issues.ts';
import { amounts } from '../sheet/words.ts';
import { unitOf } from '../units/quantities.ts';

/** Figures of a record that another figure of it makes doubtful: asked about, and no verdict changes by it. */

/** A width differs when it is no longer the same belt trimmed: common practice, no source. */
const widthDifference = 0.02;
/** An entered mass is asked about beyond this many times the one by width and thickness, and below its reciprocal. */
const massRatio = 1.6;

function doubt(belt: Belt, header: BeltInput, other: number, label: string): Finding | undefined {
  const value = belt.number(header);
  if (value === undefined) return undefined;
  const measure = beltColumn(header);
  const [one, two] = amounts(value, other, measure, belt.units);
  const unit = unitOf(measure.kind, belt.units);
  return {
    sheet: belts.name,
    record: belt.record,
    name: recordName(belt.book, belts.name, belt.record),
    check: 'input',
    verdict: 'compare',
    column: header,
    cell: belt.cell(header),
    message: `${header}, ${one}, does not agree with ${label}, ${two}. The checks use ${one}.`,
    given: { label: header, value, kind: measure.kind, unit },
    limit: { label, value: other, kind: measure.kind, unit },
    cures: [`Find out which is right, and correct ${header} or the other.`],
  };
}

/** The width that a designation begins with, mm. */
function designatedWidth(construction: string): number | undefined {
  try {
    return readDesignation(construction).width;
  } catch (error) {
    if (error instanceof Refusal) return undefined;
    throw error;
  }
}

function widthDoubt(belt: Belt): Finding | undefined {
  const [width, millimetres] = [belt.number('Width'), belt.named('MillimetresPerShort')];
  const designated = designatedWidth(belt.text('Construction'));
  if (width === undefined || designated === undefined || millimetres === undefined) return undefined;
  const named = designated / millimetres;
  return Math.abs(width - named) <= widthDifference * named
    ? undefined
    : doubt(belt, 'Width', named, 'the width in Construction');
}

function massDoubt(belt: Belt): Finding | undefined {
  const [width, thickness, density] = [belt.number('Width'), belt.number('Thickness'), belt.named('BeltDensity')];
  const mass = belt.number('Belt mass');
  if (mass === undefined || width === undefined || thickness === undefined || density === undefined) return undefined;
  // The cords of a steel cord belt weigh more than the rubber that they stand for.
  if (belt.text('Carcass material') === 'St') return undefined;
  const derived = width * thickness * density;
  return mass <= massRatio * derived && mass >= derived / massRatio
    ? undefined
    : doubt(belt, 'Belt mass', derived, 'the mass by Width, Thickness and BeltDensity');
}

/** The skew of the joint that Replaces names; undefined for a word that leaves it open. */
function namedSkew(belt: Belt): number | undefined {
  const word = belt.text('Replaces').trim().toLowerCase();
  if (word === 'square joint') return 0;
  return word === 'same skew' ? belt.number('Skew') : undefined;
}

/** What a joint takes of the belt goes by the entered skew, which may take far less than the word would. */
function replacedDoubt(belt: Belt): Finding | undefined {
  const [entered, named] = [belt.number('Replaced skew'), namedSkew(belt)];
  if (entered === undefined || named === undefined || entered === named) return undefined;
  return doubt(belt, 'Replaced skew', named, `the skew by Replaces, "${belt.text('Replaces').trim()}"`);
}

/** What is doubtful in a belt's record. */
export const recordDoubts = (belt: Belt): Finding[] =>
  [widthDoubt(belt), massDoubt(belt), replacedDoubt(belt)].filter((found) => found !== undefined);
