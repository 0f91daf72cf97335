import { describe } from 'vitest';
import { dayTests } from './day-tests.ts';

describe("the engineer's day", () => {
  dayTests('engineer');
});
