import { type CheckedBelt, declareChecks } from '../check-declaration.ts';
import { beltCell, ofBelt, seriesLabel, worked } from './compared.ts';

/** What the belt itself stands, apart from its joint: tension, skive, covers, cords under punched plates. */

const usedWay = (belt: CheckedBelt): string => {
  const from = belt.text('Tension from');
  return from === 'entered' ? 'as entered' : `from ${from}`;
};

const designated = (share: string, label: string) =>
  worked(`{Designated cover}*(1${share}CoverDifference)`, 'Top cover', label);

export const beltItselfChecks = declareChecks([
  {
    word: 'belt tension',
    source: "the belt's own rating: strength over the usual safety factor (DIN 22101, from memory)",
    doc:
      "working tension against the belt's own permitted tension; not asked where that tension stands in for the " +
      'working one',
    look: 'Construction',
    // Not known without a rating: a belt that nobody knows the strength of must not pass.
    value: ofBelt('Belt load', (belt) => `the working tension (${usedWay(belt)})`),
    maximum: ofBelt('Belt rating used', (belt) =>
      belt.text('Belt rating from') === 'entered'
        ? "the belt's permitted tension"
        : "the belt's permitted tension, its strength over the usual safety factor",
    ),
    silentWithout: [beltCell('Belt load')],
    cures: [
      (belt) => `Take a stronger belt, permitted at least ${belt.shown('Working tension')}, or enter what it is rated.`,
      'lower tension',
    ],
  },
  {
    word: 'larger tension',
    source: 'arithmetic: comparison of the methods; MethodMargin',
    doc:
      "where another method gives a larger tension than the one used, by over MethodMargin: that against the series' " +
      'rating',
    look: 'Known tension',
    value: ofBelt('Larger tension', 'the largest working tension that the record gives'),
    maximum: worked('INDEX({Plate series.Tension rating},{Series row})', 'Working tension', seriesLabel('the rating')),
    silentWithout: [beltCell('Larger tension')],
    // Which way is right is not known: a doubt is no failure.
    atWorst: 'tight',
    remark: (belt) => `The checks use ${belt.shown('Working tension')} (${usedWay(belt)}).`,
    cures: [() => 'Find out which of the ways is right, and correct or clear the other, before the joint is made.'],
  },
  {
    word: 'load per plate',
    source: "the supplier's rating times the pitch; arithmetic",
    doc: "tension on one plate against the series' rating times its pitch; edges without plates add to it",
    look: 'Plate series',
    value: ofBelt('Load per plate', 'the force on one plate'),
    maximum: worked(
      'INDEX({Plate series.Tension rating},{Series row})*INDEX({Plate series.Pitch},{Series row})',
      'Load per plate',
      seriesLabel('the rating times the pitch'),
    ),
    // Suppliers rate the width of a joint, edges included: a plate's own share is derived, not rated.
    atWorst: 'tight',
    cures: ['other series', 'lower tension'],
  },
  {
    word: 'skive',
    source: 'the cover as entered or designated; arithmetic',
    doc: 'skive against the top cover, as entered, else from the designation; not asked where nothing is skived',
    look: 'Skive depth',
    value: ofBelt('Skive depth', 'the skive'),
    maximum: ofBelt('Cover used', 'the top cover'),
    silentWithout: [beltCell('Cover left')],
    remark: (_, verdict) => (verdict === 'fails' ? 'It would cut into the carcass.' : ''),
    cures: [(belt) => `Skive less than the top cover, ${belt.shown('Cover used')}, or not at all.`],
  },
  {
    word: 'cover left',
    source: 'common practice, no source',
    doc: 'top cover left under the plates against CoverLeft; not asked where nothing is skived',
    look: 'Skive depth',
    value: ofBelt('Cover left', 'the top cover left under the plates'),
    minimum: worked('CoverLeft', 'Cover left', 'what should stay over the carcass'),
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
    minimum: designated('-', "the least that agrees with the designation's"),
    maximum: designated('+', "the most that agrees with the designation's"),
    silentWithout: [beltCell('Top cover'), beltCell('Designated cover')],
    atWorst: 'tight',
    cures: [
      () =>
        'Measure the cover again, or correct the designation; where the cover is worn, the total thickness must be ' +
        'measured too.',
    ],
  },
  {
    word: 'carcass thickness',
    source: 'arithmetic: comparison of the ways; CarcassDifference',
    doc: 'difference between the ways to the carcass thickness against CarcassDifference',
    look: 'Carcass thickness',
    value: ofBelt('Carcass difference', 'the difference between the ways to the carcass thickness'),
    maximum: worked('CarcassDifference', 'Carcass difference', 'what is told'),
    silentWithout: [beltCell('Carcass difference')],
    atWorst: 'tight',
    remark: (belt) => `The checks use ${belt.shown('Carcass used')} (${belt.text('Carcass from')}).`,
    cures: [
      () => 'Measure the carcass at a cut end and enter it; a worn belt is thinner by its covers, not by its carcass.',
    ],
  },
  {
    word: 'steel cord',
    source: 'from memory: plates on steel cord are emergency practice',
    doc: 'whether punched plates would go into a steel cord belt: emergency practice',
    look: 'Construction',
    verdict: {
      formula:
        'IF(ISERROR({Carcass material}),"not known",IF({Carcass material}="","not known",' +
        'IF({Carcass material}="St","tight","fits")))',
      given: { label: 'the carcass', value: (belt) => belt.text('Carcass material') || null },
      limit: { label: 'what bolted plates are made for', value: () => 'a fabric carcass' },
      message: () =>
        'Punched plates in a steel cord belt are emergency practice (from memory): holes cut the cords, and the rest ' +
        'can slip out of the rubber.',
    },
    atWorst: 'tight',
    cures: [() => 'Vulcanise the joint; run plates only until then, at low tension and watched.'],
  },
]);
