import { isVerdict, type Verdict } from '../functions/checks.ts';

/** A verdict's mark beside its word, so that no one has to tell colours apart. */
interface VerdictLook {
  readonly mark: string;
  readonly className: string;
}

const looks: Readonly<Record<Verdict, VerdictLook>> = {
  fails: { mark: '✕', className: 'verdict-fails' },
  'not known': { mark: '?', className: 'verdict-unknown' },
  tight: { mark: '≈', className: 'verdict-tight' },
  fits: { mark: '✓', className: 'verdict-fits' },
};

/** Worst first, as a planner reads them. */
export const verdictOrder = Object.keys(looks) as readonly Verdict[];

/** Of a finding that no check is about. */
const compare: VerdictLook = { mark: '≠', className: 'verdict-tight' };

export const verdictLook = (word: string): VerdictLook | undefined =>
  isVerdict(word) ? looks[word] : word === 'compare' ? compare : undefined;
