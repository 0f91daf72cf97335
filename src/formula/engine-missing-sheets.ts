import { CellError, ErrorType, FunctionArgumentType, FunctionPlugin, HyperFormula } from 'hyperformula';

/**
 * References to sheets that a book has not, as the engine can bear them.
 *
 * The engine keeps a place for a sheet that it does not know, and throws when a formula with such a reference is
 * entered over a cell that held something else. So it is given a call in the reference's place, which answers #REF! and
 * says which sheet there is not; what is read back from it has the reference again, the rest of the formula having
 * moved with its rows.
 */

const standIn = 'NO.SHEET';

const sheetName = String.raw`(?:'(?:[^']|'')+'|[\w.\u00C0-\u02AF]+)!`;
const corner = String.raw`(?:\$?[A-Za-z]{1,3}\$?\d{1,7}|\$?[A-Za-z]{1,3}|\$?\d{1,7})(?![\w.(])`;
/** Texts between quotes are passed over: what looks like a reference in them is none. */
const otherSheets = new RegExp(
  String.raw`"(?:[^"]|"")*"|(?<![\w.'])(${sheetName})${corner}(?::(${sheetName})?${corner})?`,
  'g',
);

const plainName = (prefix: string): string =>
  prefix
    .slice(0, -1)
    .replace(/^'(.*)'$/s, '$1')
    .replaceAll("''", "'");

/** A formula with calls in place of references to sheets other than these, whose names are in lower case. */
export const withStandIns = (formula: string, sheets: ReadonlySet<string>): string =>
  formula.includes('!')
    ? formula.replaceAll(otherSheets, (whole: string, first: string | undefined, last: string | undefined) =>
        [first, last].every((prefix) => prefix === undefined || sheets.has(plainName(prefix).toLowerCase()))
          ? whole
          : `${standIn}("${encodeURIComponent(whole)}")`,
      )
    : formula;

const calls = new RegExp(String.raw`${standIn.replace('.', String.raw`\.`)}\("([^"]*)"\)`, 'g');

/** The formula that `withStandIns` was given, with other references as they stand now. */
export const withoutStandIns = (formula: string): string =>
  formula.includes(standIn)
    ? formula.replaceAll(calls, (_, reference: string) => decodeURIComponent(reference))
    : formula;

type Syntax = Parameters<FunctionPlugin['runFunction']>[0];
type State = Parameters<FunctionPlugin['runFunction']>[1];

class MissingSheets extends FunctionPlugin {
  static override implementedFunctions = {
    [standIn]: { method: 'missing', parameters: [{ argumentType: FunctionArgumentType.STRING }] },
  };

  missing({ args }: { readonly args: Syntax }, state: State): ReturnType<FunctionPlugin['runFunction']> {
    return this.runFunction(args, state, this.metadata(standIn), (reference: string) => {
      const [prefix = ''] = new RegExp(`^${sheetName}`).exec(decodeURIComponent(reference)) ?? [];
      return new CellError(ErrorType.REF, `there is no sheet ${plainName(prefix)}`);
    });
  }
}

/** Registers the call with the engine; again is no harm. */
export function registerMissingSheets(): void {
  HyperFormula.registerFunctionPlugin(MissingSheets, { enGB: { [standIn]: standIn } });
}
