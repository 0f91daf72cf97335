/**
 * Figures by which a belt's construction is estimated, all of them uncertain: defaults to be overruled, with their
 * mark.
 */

/**
 * Thickness of one ply with its share of rubber, mm: a part that every ply has and a part that grows with its strength,
 * for polyamide by less.
 *
 * Polyester 0.95 mm at 100 N/mm, 1.4 at 200, 2.3 at 400; polyamide 1.7 at 400, 2 at 500. Source: from memory; one
 * maker's published table, seen, has fabric without rubber, to which some 0.3 to 0.5 mm of rubber a ply come: polyester
 * 1.05 mm at 200 N/mm and 1.80 at 400, polyamide 1.45 at 400 and 1.55 at 500. Real plies lie within about a fifth.
 */
export const plyThickness = { base: 0.5, perStrength: 0.0045, perStrengthPolyamide: 0.003 } as const;

/** Codes of the carcass whose plies are of polyamide. */
export const polyamideCodes: readonly string[] = ['P', 'NN'];

/**
 * Greatest diameter of the cords by the belt's type strength, N/mm and mm.
 *
 * Source: DIN 22131, from memory; of 1600 and 2000 N/mm a maker's sheet, seen, has 5.85 mm, give or take 0.3, for 5.6
 * in the standard: the largest.
 */
export const steelCords = [
  { strength: 1000, diameter: 4.1 },
  { strength: 1250, diameter: 4.9 },
  { strength: 1600, diameter: 6.15 },
  { strength: 2000, diameter: 6.15 },
  { strength: 2500, diameter: 7.2 },
  { strength: 3150, diameter: 8.1 },
  { strength: 3500, diameter: 8.6 },
  { strength: 4000, diameter: 8.9 },
  { strength: 4500, diameter: 9.7 },
  { strength: 5000, diameter: 10.9 },
  { strength: 5400, diameter: 11.3 },
] as const;

/**
 * Type strength over permitted tension, as the usual figure and its range.
 *
 * About 10 for fabric (8 to 10), 7 to 9.5 for steel cord. Source: DIN 22101, from memory.
 */
export const safetyFactors = {
  fabric: { usual: 10, least: 8, most: 10 },
  steelCord: { usual: 9.5, least: 7, most: 9.5 },
} as const;
