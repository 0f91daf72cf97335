/**
 * Tables of the drive, laid out like the printed ones. All from memory: they are proposals, a measured or entered
 * figure goes first.
 */

/**
 * Friction between belt and drive pulley by the pulley's face and its condition; 'dirty' is wet and dirty.
 *
 * Source: after DIN 22101, from memory; bare steel, dry, 0.35 there, 0.25 to 0.28 seen on two published pages of North
 * American practice: the lower one, which asks for more on the slack side.
 */
export const driveFrictions = [
  { face: 'bare steel', dry: 0.25, wet: 0.1, dirty: 0.05 },
  { face: 'grooved rubber', dry: 0.4, wet: 0.35, dirty: 0.25 },
  { face: 'ceramic', dry: 0.4, wet: 0.35, dirty: 0.35 },
] as const;

export const driveConditions = ['dry', 'wet', 'dirty'] as const;

/**
 * Slack side over pull with a screw take-up, by the wrap in degrees.
 *
 * Larger than the limit of slip, since a screw is set by hand and yields nothing when the belt stretches.
 * Source: from memory, to one decimal.
 */
export const screwFactors = [
  { wrap: 180, bare: 1.2, lagged: 0.8 },
  { wrap: 210, bare: 1, lagged: 0.7 },
  { wrap: 220, bare: 0.9, lagged: 0.6 },
  { wrap: 240, bare: 0.8, lagged: 0.6 },
  { wrap: 380, bare: 0.5, lagged: 0.3 },
] as const;
