import { ChangeRefused } from '../what-if/typed-change.ts';
import { UsageError } from './usage-error.ts';

/** What a question about a book comes to; one that can't be read is a mistake of the command that was typed. */
export function orUsageError<Made>(make: () => Made, option = ''): Made {
  try {
    return make();
  } catch (error) {
    if (error instanceof ChangeRefused)
      throw new UsageError(option === '' ? error.message : `${option}: ${error.message}`);
    throw error;
  }
}
