import { aggregateFunctions } from './aggregate.ts';
import { besselFunctions } from './bessel.ts';
import { calendarFunctions } from './calendar.ts';
import { distributionFunctions } from './distributions.ts';
import { formatFunctions } from './number-format.ts';
import { informationFunctions } from './information.ts';
import { interestFunctions } from './interest-rate.ts';
import { lookupFunctions } from './lookups.ts';
import { mathematicsFunctions } from './mathematics.ts';
import { matrixFunctions } from './matrices.ts';
import { normalFunctions } from './normal-distribution.ts';
import { rankingFunctions } from './ranking.ts';
import { regressionFunctions } from './regression.ts';
import { reshapingFunctions } from './reshaping.ts';
import { roundingFunctions } from './rounding-functions.ts';
import { textFunctions } from './texts.ts';
import { conversionFunctions } from './unit-conversion.ts';
import type { StandardFunction } from './standard-function.ts';

/** Every standard function that is computed here and not by the engine. */
export const standardFunctions: readonly StandardFunction[] = [
  ...mathematicsFunctions,
  ...roundingFunctions,
  ...calendarFunctions,
  ...formatFunctions,
  ...textFunctions,
  ...informationFunctions,
  ...lookupFunctions,
  ...reshapingFunctions,
  ...rankingFunctions,
  ...regressionFunctions,
  ...matrixFunctions,
  ...normalFunctions,
  ...distributionFunctions,
  ...interestFunctions,
  ...besselFunctions,
  ...conversionFunctions,
  ...aggregateFunctions,
];
