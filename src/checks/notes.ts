import type { PulleyHeader } from '../../sheets/index.ts';
import { belts } from '../../sheets/belts/index.ts';
import { tensionRouteNames } from '../../sheets/belts/inputs.ts';

import { pulleys } from '../../sheets/series/pulleys.ts';
import { Fault, type Value } from '../formula/values.ts';
import { beltPath } from '../functions/path.ts';
import { cellName } from '../formula/address.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { Belt, beltColumn } from '../records/belt.ts';
import type { Finding } from '../records/finding.ts';
import { recordDoubts } from './doubts.ts';
import { recordName } from '../records/input-issues.ts';
import { amount, listed, share } from '../sheet/words.ts';

/** Notes beside the checks: methods for the tension that differ, and listed pulleys that no belt can run around. */

const methods = [
  { word: 'entered', header: 'Known tension', rests: ['Known tension'] },
  { word: 'resistances', header: 'Tension by resistances', rests: ['Capacity', 'Lift', 'RollingFriction'] },
  { word: 'power', header: 'Tension by power', rests: ['Power', 'Speed'] },
] as const;

function methodsDiffer(belt: Belt): Finding | undefined {
  const [difference, margin] = [belt.number('Method difference'), belt.named('MethodMargin')];
  if (belt.text('Methods') !== 'differ' || difference === undefined || margin === undefined) return undefined;
  const measure = beltColumn('Working tension');
  const found = methods.flatMap(({ word, header, rests }) => {
    const value = belt.number(header);
    return value === undefined
      ? []
      : [{ word, rests, called: tensionRouteNames[word], value: amount(value, measure, belt.units) }];
  });
  const used = found.find(({ word }) => word === belt.text('Tension from').toLowerCase());
  const isOverridden = belt.book.overridden({
    sheet: belts.name,
    record: belt.record,
    column: belt.book.column(belts.name, 'Working tension'),
  });
  const [smaller, larger] = found.length > 2 ? ['smallest', 'largest'] : ['smaller', 'larger'];
  return {
    sheet: belts.name,
    record: belt.record,
    name: recordName(belt.book, belts.name, belt.record),
    check: 'methods',
    verdict: 'compare',
    column: 'Tension method',
    cell: belt.cell('Tension method'),
    message:
      `The methods for the working tension disagree: ` +
      `${listed(found.map(({ called, value }) => `${called} ${value}`))}. The ${smaller} is ${share(difference)} ` +
      `below ` +
      `the ${larger}, more than the margin of ${share(margin)}. The checks use ` +
      (isOverridden
        ? `the working tension entered over its formula, ${belt.shown('Working tension')}.`
        : used === undefined
          ? 'another tension.'
          : `the ${used.word === 'entered' ? '' : 'tension '}${used.called}, ${used.value}.`),
    given: {
      label: 'the difference between the methods for the working tension',
      value: difference,
      kind: 'ratio',
      unit: '',
    },
    limit: { label: 'the margin', value: margin, kind: 'ratio', unit: '' },
    cures: [
      `Check that ${listed(found.flatMap(({ rests }) => rests))} are correct for this belt.`,
      'Enter in Tension method which one counts, or the tension itself in Known tension.',
    ],
  };
}

/**
 * Why the belt cannot run around its listed pulleys, with their names; any two neighbours may be possible and the whole
 * not.
 */
function impossibleWay(belt: Belt): Finding | undefined {
  const { book } = belt;
  if (belt.text('Loop from') !== 'pulleys') return undefined;
  const name = String(belt.value('Belt')).toLowerCase();
  const records = [...book.sheet(pulleys.name).rows.keys()].filter(
    (record) => String(book.read(pulleys.name, record, 'Belt')).toLowerCase() === name,
  );
  const [first] = records;
  const long = belt.named('ShortPerLong');
  if (first === undefined || long === undefined) return undefined;
  const column = (header: PulleyHeader, factor = 1): Value[][] =>
    records.map((record) => {
      const value = book.read(pulleys.name, record, header);
      return [typeof value === 'number' ? value * factor : value];
    });
  const places = [column('x', long), column('y', long), column('Neutral diameter'), column('Turn')];
  // A figure that is not known is an input's own matter.
  if (places.flat(2).some((value) => typeof value !== 'number')) return undefined;
  const way = beltPath.evaluate(places);
  if (!(way instanceof Fault)) return undefined;
  const named = way.message
    .replace(/^[A-Z]+: \w+ must /, '')
    .replace(/; [^;]* was given$/, '')
    .replaceAll(/pulley (\d+)/g, (whole, place: string) =>
      String(book.read(pulleys.name, records[Number(place) - 1] ?? -1, 'Pulley') ?? whole),
    );
  return {
    sheet: pulleys.name,
    record: first,
    name: recordName(book, belts.name, belt.record),
    check: 'pulleys',
    verdict: 'not known',
    column: 'x',
    cell: cellName(pulleys.name, first, book.column(pulleys.name, 'x')),
    message: `The belt cannot run around its listed pulleys: the list must ${named}.`,
    given: null,
    limit: null,
    cures: [
      'Correct the positions, the belt sides or the order of the pulleys in the sheet Pulleys. Until then the ' +
        'loop length is wrong.',
    ],
  };
}

/** Notes on one belt, beside its checks. */
export function beltNotes(book: Workbook, record: number): Finding[] {
  const belt = new Belt(book, record);
  return [...[methodsDiffer(belt), impossibleWay(belt)].filter((note) => note !== undefined), ...recordDoubts(belt)];
}
