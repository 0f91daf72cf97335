import { HyperFormula } from 'hyperformula';
import { licensed } from './engine-licence.ts';

/** A function that the formula engine brings along, as the engine describes it. */
interface StandardFunction {
  /** SUMIF(range, criteria, [sum_range]) as help shows it. */
  readonly signature: string;
  readonly category: string;
  readonly does: string;
}

/** Categories of what is no function that people know by this name: operators in the form of functions, and our own. */
const leftOut: ReadonlySet<string> = new Set(['Operator', 'Custom']);

/** The standard functions that work in cells, by category and name. */
export function standardFunctions(): readonly StandardFunction[] {
  const book = licensed((licenseKey) => HyperFormula.buildEmpty({ licenseKey }));
  const known = book.getRegisteredFunctionNames().flatMap((name) => {
    const details = book.getFunctionDetails(name);
    if (details === undefined || leftOut.has(details.category)) return [];
    const parameters = details.parameters.map(({ name: parameter, optional }) =>
      optional ? `[${parameter}]` : parameter,
    );
    const all = details.repeatLastArgs === 0 ? parameters : [...parameters, '…'];
    return [
      { signature: `${name}(${all.join(', ')})`, category: details.category, does: details.shortDescription ?? '' },
    ];
  });
  book.destroy();
  const order = ({ category, signature }: StandardFunction): string => `${category} ${signature}`;
  return known.toSorted((one, other) => (order(one) < order(other) ? -1 : 1));
}
