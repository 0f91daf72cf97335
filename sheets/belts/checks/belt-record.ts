import { declareChecks } from '../check-declaration.ts';
import { beltCell, ofBelt } from './compared.ts';

/** What a belt's record says of the belt, held against itself. */
export const beltRecordChecks = declareChecks([
  {
    word: 'layers',
    doc: 'top cover and carcass, as entered, against the thickness of the belt',
    source: 'arithmetic',
    look: 'Thickness',
    verdict: {
      formula:
        'IFERROR(IF({Layers entered}=0,"fits",IF(ROUND({Layers entered}-{Thickness},9)>0,"fails","fits")),"not known")',
      given: { label: 'the top cover and carcass', value: (belt) => belt.shown('Layers entered') },
      limit: { label: 'the thickness', value: (belt) => belt.shown('Thickness') },
      message: (belt) =>
        `Top cover and carcass together, ${belt.shown('Layers entered')}, are thicker than the whole belt, ` +
        `${belt.shown('Thickness')}.`,
    },
    cures: [() => 'Measure Thickness, Top cover and Carcass thickness again at a cut end.'],
  },
  {
    word: 'entered rating',
    doc: "entered belt rating against the belt's strength over the minimum safety factor",
    source: 'DIN 22101, from memory: the minimum safety factors',
    look: 'Belt rating',
    value: ofBelt('Belt rating', 'the entered belt rating'),
    maximum: ofBelt('Maximum belt rating', "the belt's strength over the minimum safety factor"),
    silentWithout: [beltCell('Belt rating'), beltCell('Belt strength')],
    // A maker may know more of the belt than the table of factors does.
    atWorst: 'tight',
    cures: [() => "Look the rating up in the belt's data sheet, or clear Belt rating: it is then derived."],
  },
]);
