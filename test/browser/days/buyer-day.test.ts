import { describe } from 'vitest';
import { dayTests } from './day-tests.ts';

describe("the buyer's day", () => {
  dayTests('buyer');
});
