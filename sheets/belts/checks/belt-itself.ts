import { type CheckedBelt, declareChecks } from '../check-declaration.ts';
import { beltCell, ofBelt, seriesLabel, worked } from './compared.ts';

/** What the belt itself stands, apart from its joint: tension, skive, covers, cords under punched plates. */

/** Where each method's tension stands. */
const givenBy = {
  entered: 'Known tension',
  resistances: 'Tension by resistances',
  power: 'Tension by power',
  'belt rating': 'Load at belt rating',
} as const;

const isMethod = (word: string): word is keyof typeof givenBy => Object.hasOwn(givenBy, word);

const usedWay = (belt: CheckedBelt): string => {
  const from = belt.text('Tension from');
  // A working tension that somebody typed over its formula is no method's.
  if (isMethod(from) && belt.number(givenBy[from]) !== belt.number('Working tension'))
    return 'entered over its formula';
  return from === 'entered' ? 'as entered' : `from ${from}`;
};

const designated = (share: string, label: string) =>
  worked(`{Designated cover}*(1${share}CoverDifference)`, 'Top cover', label);

export const beltItselfChecks = declareChecks([
  {
    word: 'belt tension',
    source: "the belt's own rating: strength over the usual safety factor (DIN 22101, from memory)",
    doc: 'working tension against the belt rating; not asked where the belt rating is used as the ' + 'working tension',
    look: 'Construction',
    // Not known without a rating: a belt that nobody knows the strength of must not pass.
    value: ofBelt('Belt load', (belt) => `the working tension (${usedWay(belt)})`),
    maximum: ofBelt('Belt rating used', (belt) =>
      belt.text('Belt rating from') === 'entered'
        ? 'the belt rating'
        : 'the belt rating, its strength over the usual safety factor',
    ),
    silentWithout: [beltCell('Belt load')],
    cures: [
      (belt) =>
        `Choose a stronger belt, rated at least ${belt.shown('Working tension')}, or, if the belt's data sheet gives ` +
        `a higher rating, enter it in Belt rating.`,
      'lower tension for the belt',
    ],
  },
  {
    word: 'larger tension',
    source: 'arithmetic: comparison of the methods; MethodMargin',
    doc:
      'if another method gives more than the tension used, by over MethodMargin: that tension against the rating of ' +
      'the series, or of the belt where it is lower',
    look: 'Known tension',
    value: ofBelt('Larger tension', 'the largest working tension of all methods'),
    maximum: worked(
      'MIN(INDEX({Plate series.Tension rating},{Series row}),{Belt rating used})',
      'Working tension',
      (belt) =>
        (belt.number('Belt rating used') ?? Infinity) < Number(belt.ofSeries('Tension rating'))
          ? 'the belt rating'
          : seriesLabel('the rating')(belt),
    ),
    silentWithout: [beltCell('Larger tension')],
    // Which way is right is not known: a doubt is no failure.
    atWorst: 'tight',
    remark: (belt) => `The checks use ${belt.shown('Working tension')} (${usedWay(belt)}).`,
    cures: [() => 'Find out which method is right, and correct or clear the other, before the joint is made.'],
  },
  {
    word: 'load per plate',
    source: "the supplier's rating times the pitch; arithmetic",
    doc:
      "load on one plate against the series' rating times its pitch; belt beyond the outer plates adds to their " +
      'load',
    look: 'Plate series',
    value: ofBelt('Load per plate', 'the load on one plate'),
    maximum: worked(
      'INDEX({Plate series.Tension rating},{Series row})*INDEX({Plate series.Pitch},{Series row})',
      'Load per plate',
      seriesLabel('the rating times the pitch'),
    ),
    // Suppliers rate the width of a joint, edges included: a plate's own share is derived, not rated.
    atWorst: 'tight',
    cures: ['other series', 'lower tension for a plate'],
  },
  {
    word: 'skive',
    source: 'the cover as entered or designated; arithmetic',
    doc: 'skive against the top cover, as entered, otherwise from the designation; not asked without a skive',
    look: 'Skive depth',
    value: ofBelt('Skive depth', 'the skive'),
    maximum: ofBelt('Cover used', 'the top cover'),
    silentWithout: [beltCell('Cover left')],
    remark: (_, verdict) => (verdict === 'fails' ? 'The skive would cut into the carcass.' : ''),
    cures: [(belt) => `Skive less than the top cover, ${belt.shown('Cover used')}, or do not skive.`],
  },
  {
    word: 'cover left',
    source: 'common practice, no source',
    doc: 'top cover left under the plates against CoverLeft; not asked without a skive',
    look: 'Skive depth',
    value: ofBelt('Cover left', 'the top cover left under the plates'),
    minimum: worked('CoverLeft', 'Cover left', 'the minimum CoverLeft'),
    silentWithout: [beltCell('Cover left')],
    // Practice without a source. A skive into the carcass fails by the check of the skive.
    atWorst: 'tight',
    cures: [() => 'Skive less.'],
  },
  {
    word: 'top cover',
    source: 'arithmetic: the designation; CoverDifference',
    doc: "entered top cover against the designation's",
    look: 'Top cover',
    value: ofBelt('Top cover', 'the entered top cover'),
    minimum: designated('-', 'the minimum that agrees with the designation'),
    maximum: designated('+', 'the maximum that agrees with the designation'),
    silentWithout: [beltCell('Top cover'), beltCell('Designated cover')],
    atWorst: 'tight',
    cures: [
      () =>
        'Measure the cover again, or correct the designation. If the cover is worn, measure the total thickness ' +
        'too.',
    ],
  },
  {
    word: 'carcass thickness',
    source: 'arithmetic: comparison of the methods; CarcassDifference',
    doc: 'difference between the methods for the carcass thickness against CarcassDifference',
    look: 'Carcass thickness',
    value: ofBelt('Carcass difference', 'the difference between the methods for the carcass thickness'),
    maximum: worked('CarcassDifference', 'Carcass difference', 'the limit CarcassDifference'),
    silentWithout: [beltCell('Carcass difference')],
    atWorst: 'tight',
    remark: (belt) => `The checks use ${belt.shown('Carcass used')} (${belt.text('Carcass from')}).`,
    cures: [
      () => 'Measure the carcass at a cut end and enter it. A worn belt is thinner by its covers, not by its carcass.',
    ],
  },
  {
    word: 'steel cord',
    source: 'from memory: plates on steel cord are emergency practice',
    doc: 'warns of punched plates in a steel cord belt: emergency practice',
    look: 'Construction',
    verdict: {
      formula:
        'IF(ISERROR({Carcass material}),"not known",IF({Carcass material}="","not known",' +
        'IF({Carcass material}="St","tight","fits")))',
      given: { label: 'the carcass', value: (belt) => belt.text('Carcass material') || null },
      limit: { label: 'the belt that bolted plates are made for', value: () => 'a fabric carcass' },
      message: () =>
        'Punched plates in a steel cord belt are emergency practice (from memory): holes cut the cords, and the rest ' +
        'can slip out of the rubber.',
    },
    atWorst: 'tight',
    cures: [() => 'Vulcanise the joint. Until then, run plates only at low tension and under watch.'],
  },
]);
