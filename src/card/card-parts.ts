import type { SeriesHeader } from '../../sheets/index.ts';
import { counted } from '../units/phrases.ts';
import type { Belt } from '../records/belt.ts';
import { fineText, type LengthUnit, tapeText } from '../drawing/tape.ts';

/** What is brought to the belt. */
export interface Part {
  readonly item: string;
  readonly what: string;
  /** As it is printed; 'not known' without a number. */
  readonly count: string;
  readonly remark: string;
}

const notKnown = 'not known';

/** Plates, bolts, strips and the punch of one joint, with the packs that hold them. */
export function cardParts(belt: Belt, unit: LengthUnit): readonly Part[] {
  const [plates, bolts, bolt, strip, total, pieces] = [
    belt.number('Plates'),
    belt.number('Bolts'),
    belt.number('Bolt length'),
    belt.number('Strip length each'),
    belt.number('Strip per joint'),
    belt.number('Strips'),
  ];
  const packs = (count: number | undefined, header: SeriesHeader): string => {
    const size = belt.ofSeries(header);
    if (count === undefined || typeof size !== 'number' || !(size > 0)) return '';
    const needed = Math.ceil(count / size);
    return `${counted(needed, 'pack')} of ${size}`;
  };
  const known = (value: number | undefined): string => (value === undefined ? notKnown : String(value));
  const name = belt.text('Plate series');
  const supplier = belt.ofSeries('Supplier');
  const punch = belt.ofSeries('Punch size');
  const stripName = belt.ofSeries('Strip');
  return [
    {
      item: 'Plates',
      what:
        name === ''
          ? 'plate series not known'
          : `${name}${typeof supplier === 'string' ? `, ${supplier}` : ''}, each an upper and a lower one`,
      count: known(plates),
      remark: packs(plates, 'Plates per pack'),
    },
    {
      item: 'Bolts with nuts',
      what: bolt === undefined ? 'length not known' : `${tapeText(bolt, unit)} long`,
      count: known(bolts),
      remark: packs(bolts, 'Bolts per pack'),
    },
    ...(pieces === 0
      ? []
      : [
          {
            item: 'Strips',
            count: known(pieces),
            what:
              `${typeof stripName === 'string' ? `${stripName}, ` : ''}` +
              `${strip === undefined ? 'length not known' : `${tapeText(strip, unit)} each`}`,
            remark: total === undefined ? '' : `total ${tapeText(total, unit)}`,
          },
        ]),
    {
      item: 'Punch or drill',
      what: typeof punch === 'number' ? `diameter ${fineText(punch, unit)}` : 'diameter not known',
      count: '1',
      remark: '',
    },
  ];
}
