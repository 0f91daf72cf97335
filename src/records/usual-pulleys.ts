import { inchPulleys, standardPulleys } from '../functions/tables.ts';
import type { Belt } from './belt.ts';

/** Diameters that can be had in the book's own practice, in its unit, the smallest first. */
export const usualPulleys = ({ units }: Pick<Belt, 'units'>): readonly number[] =>
  units === 'us' ? inchPulleys : standardPulleys;
