import { describe } from 'vitest';
import { dayTests } from './day-tests.ts';

describe("the planner's day", () => {
  dayTests('planner');
});
