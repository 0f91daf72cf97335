/**
 * The formula engine's licence key: from the environment when the program was built or, on the command line, when it
 * runs.
 *
 * 'gpl-v3' uses HyperFormula under the GNU GPL version 3, which is why Skewbook itself is under that licence.
 */
export function hyperFormulaKey(): string {
  const built = import.meta.env?.['SKEWBOOK_HYPERFORMULA_KEY'] as string | undefined;
  const running = typeof process === 'undefined' ? undefined : process.env['SKEWBOOK_HYPERFORMULA_KEY'];
  return running ?? built ?? 'gpl-v3';
}
