import { isVerdict, type Verdict } from '../functions/checks.ts';
import { verdictMarks } from '../pictures/verdict-marks.ts';

/** A verdict's mark beside its word, so that no one has to tell colours apart. */
interface VerdictLook {
  readonly mark: string;
  readonly className: string;
}

const looks: Readonly<Record<Verdict, VerdictLook>> = {
  fails: { mark: verdictMarks.fails, className: 'verdict-fails' },
  'not known': { mark: verdictMarks['not known'], className: 'verdict-unknown' },
  tight: { mark: verdictMarks.tight, className: 'verdict-tight' },
  fits: { mark: verdictMarks.fits, className: 'verdict-fits' },
};

/** Of a finding that no check is about. */
const compare: VerdictLook = { mark: '≠', className: 'verdict-tight' };

export const verdictLook = (word: string): VerdictLook | undefined =>
  isVerdict(word) ? looks[word] : word === 'compare' ? compare : undefined;

export { verdictOrder } from '../pictures/verdict-marks.ts';
