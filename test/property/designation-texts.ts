import fc from 'fast-check';
import { carcassCodes } from '../../src/functions/designation.ts';

/** Texts that are designations, nearly so, or hardly. */

const space = fc.constantFrom('', '', ' ', ' ', ' ', '  ', '\u00A0', '\n', '\t', '\r\n');
const code = fc.constantFrom(...carcassCodes, ...carcassCodes.map((one) => one.toLowerCase()), 'EP', 'St', 'PN', 'EPP');
const whole = fc.oneof(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 40, max: 12_000 })).map(String);
const cover = fc
  .tuple(fc.oneof(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 40, max: 60 })), fc.constantFrom('', '', '.', ','))
  .chain(([figure, point]) =>
    fc.integer({ min: 0, max: 120 }).map((decimals) => `${figure}${point}${point === '' ? '' : decimals}`),
  );
const unit = fc.constantFrom('', '', '', 'mm', ' mm', ' MM');
const mark = fc.constantFrom('+', '+', '/', ':', ' + ', ' / ', '/ ', ' :', '-', 'x');
const gap = fc.constantFrom(' ', ' ', ' ', '', '-', ' - ', '/', ':', ', ', '; ', ' (', '--');
const grade = fc.constantFrom(
  '',
  '',
  ' Y',
  ' M24',
  'Y',
  ' / K',
  '/K',
  ')',
  ', heat resistant',
  ' EP 500',
  ' 9.8',
  '.5',
  ' + 3',
  ' 4 ply',
  ' (3)',
  ' 12 mm',
  ' per ply',
);
const before = fc.constantFrom(
  '',
  '',
  '',
  '1000 ',
  '800 mm ',
  'Gr\u00F6\u00DFe 5 ',
  '3 x ',
  '2X',
  '4 \u00D7 ',
  'Flex ',
  'Klemme 5 ',
  '3-ply ',
  '12 plies ',
);

/** A designation with everything that one may have, each part now and then another one than it should be. */
const written = fc
  .tuple(
    before,
    code,
    gap,
    whole,
    fc.option(
      fc.tuple(
        space,
        fc.constantFrom('/', '/', '/', ':'),
        space,
        fc.oneof(fc.integer({ min: 1, max: 6 }).map(String), whole),
      ),
    ),
    fc.option(fc.tuple(gap, cover, unit, mark, cover, unit)),
    grade,
  )
  .map(([first, carcass, joint, strength, plies, covers, last]) =>
    [first, carcass, joint, strength, ...(plies ?? []), ...(covers ?? []), last].join(''),
  );

const usual = fc
  .tuple(
    fc.constantFrom('', '1000 ', '650 mm '),
    fc.constantFrom('EP', 'NN', 'ep ', 'EP ', 'P ', 'EP-', 'St', 'ST ', 'E '),
    fc.integer({ min: 50, max: 7500 }).map(String),
    fc.constantFrom('', '/3', '/4', ' / 2', '/12'),
    fc.option(fc.tuple(fc.constantFrom(' ', ', ', ' (', ' - '), cover, mark, cover), { freq: 6 }),
    fc.constantFrom('', ' Y', ' M24', ', oil resistant', ' mm'),
  )
  .map(([width, carcass, strength, plies, covers, last]) =>
    [width, carcass, strength, plies, ...(covers ?? []), last].join(''),
  );

const pieces = [
  ...carcassCodes,
  ...'0123456789+/:-,.;()xX*\u00D7 \u00A6\u00DF\u00C4_"\'~?#|&%'.split(''),
  ' ',
  ' ',
  ' ',
  'mm',
  'MM',
  '00',
  ' EP',
  ' St',
  '\u00A0',
  '\n',
  '\u2009',
  'I\u0307',
  '\u0131',
  '400',
  '400/3',
  '4+2',
  'g',
  'EP 400/3 ',
];

/** A text with some of its characters left out, or others put in. */
const damaged = (text: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc
    .tuple(text, fc.array(fc.tuple(fc.nat(60), fc.nat(2), fc.constantFrom(...pieces)), { maxLength: 4 }))
    .map(([sound, edits]) =>
      edits.reduce((rest, [at, left, put]) => {
        const place = at % (rest.length + 1);
        return rest.slice(0, place) + put + rest.slice(place + left);
      }, sound),
    );

const thrown = fc.array(fc.constantFrom(...pieces), { minLength: 1, maxLength: 14 }).map((parts) => parts.join(''));

export const anyDesignation: fc.Arbitrary<string> = fc
  .oneof(
    { weight: 4, arbitrary: usual },
    { weight: 3, arbitrary: damaged(usual) },
    { weight: 3, arbitrary: written },
    { weight: 2, arbitrary: damaged(written) },
    { weight: 1, arbitrary: thrown },
  )
  .filter((text) => !text.startsWith('=') && text.trim() !== '');
