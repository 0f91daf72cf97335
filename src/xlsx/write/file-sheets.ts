import { type Answer, answerOf, type AnswerScope, answerWithin, unknownAnswer } from '../../formula/answers.ts';
import { plainArithmetic, withoutMarks } from '../../formula/file-spelling.ts';
import { type DeclaredFormula, guarded } from '../../formula/guard-places.ts';
import type { GuardScope } from '../../formula/guard-uses.ts';
import { folded, plainRefusals } from '../../formula/folded.ts';
import { refused } from '../../formula/guards.ts';
import { PlainForms } from '../../formula/plain.ts';
import { type Node, nodesOf, printed } from '../../formula/syntax.ts';
import { functions } from '../../functions/index.ts';
import { type Column, isComputed } from '../../sheet/declaration.ts';
import { declaredFormula, fileForm, slotParts } from '../../sheet/declared-formula.ts';
import { isWords } from '../../units/quantities.ts';
import type { CompiledSheet } from '../../workbook/compiled-sheet.ts';
import { compiledSheets, computingSteps, guardScope, namedValue } from '../../workbook/declared.ts';
import { allowedFormula, checkedFormula, hasBounds } from './checked-cells.ts';
import { type DeclaredPart, namesIn, notReplaced, withParts } from './declared-parts.ts';
import { literalLookups } from './literal-lookups.ts';
import { adjacentVerdicts } from './adjacent-verdicts.ts';
import { sharedParts } from './shared-parts.ts';
import { checkedHeader, type FileSheet, type NoFormula, type WorkingColumn } from './working-columns.ts';

/**
 * The computed columns of an exported book as its file spells them, and the working columns that they refer to: what a
 * person would have laid out beside the sheet to keep its formulas short.
 */

/** What a book holds that a formula of the file may not take for granted. */
export interface HeldOtherwise {
  /** Computed columns in which numbers stand in place of the formula, by sheet and header. */
  readonly overridden: (sheet: string, header: string) => boolean;
  /** Computed columns in which something else does. */
  readonly mixed: (sheet: string, header: string) => boolean;
  /** Whether the file has a list of a table of lines by a name. */
  readonly hasList: (name: string) => boolean;
  /** The cell that holds a named value's number or an error, where its name stands for something else. */
  readonly checkedName: (name: string) => Node | undefined;
}

const forms = new PlainForms(functions, true);
const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });
const placeholder = (name: string): Node => ({ type: 'placeholder', name });

const allowedHeader = (header: string): string => `${header}, allowed`;

class SheetWorkings {
  readonly columns = new Map<string, WorkingColumn>();
  readonly #answers = new Map<string, Answer>();

  add(column: Omit<WorkingColumn, 'slot'>, answer: Answer): Node {
    const { header: slot } = column;
    if (!this.columns.has(slot)) {
      this.columns.set(slot, { slot, ...column });
      this.#answers.set(slot, answer);
    }
    return placeholder(slot);
  }

  answer(slot: string): Answer | undefined {
    return this.#answers.get(slot);
  }
}

class FileSheets {
  readonly #held: HeldOtherwise;
  readonly #workings = new Map<string, SheetWorkings>();
  readonly #answers = new Map<string, Answer>();
  readonly #formulas = new Map<string, Map<number, Node | NoFormula>>();

  constructor(held: HeldOtherwise) {
    this.#held = held;
    for (const name of compiledSheets.keys()) {
      this.#workings.set(name, new SheetWorkings());
      this.#formulas.set(name, new Map());
    }
    for (const { plan, column } of computingSteps) this.#add(plan, column);
  }

  sheet(name: string): FileSheet {
    const [formulas, workings] = [this.#formulas.get(name), this.#workings.get(name)];
    if (formulas === undefined || workings === undefined) throw new Error(`there is no sheet ${name}`);
    return sharedParts(
      formulas,
      [...workings.columns.values()],
      compiledSheets.get(name)?.declaration.partOf !== undefined,
    );
  }

  #add(plan: CompiledSheet, position: number): void {
    const { name } = plan.declaration;
    const column = plan.columns[position];
    const declared = column === undefined ? undefined : declaredFormula(column);
    if (column === undefined || declared === undefined) throw new Error(`${name}: column ${position} is not computed`);
    const { formula, parts } = this.#partsOf(name, plan, column, declared);
    const spelt = this.#spelt(name, plan, withParts(formula, parts));
    this.#formulas.get(name)?.set(position, 'why' in spelt ? spelt : withoutMarks(spelt));
    const answer = 'why' in spelt ? unknownAnswer : answerOf(spelt, this.#scope(name));
    this.#answers.set(`${name}.${column.header}`, this.#heldAnswer(name, column.header, answer));
  }

  /** A column's formula as the file works it out, and its parts, to each of which a working column is given. */
  #partsOf(
    name: string,
    plan: CompiledSheet,
    column: Column,
    declared: DeclaredFormula,
  ): { readonly formula: DeclaredFormula; readonly parts: readonly DeclaredPart[] } {
    const inFile = fileForm(column);
    const lists = [...inFile.parts.values(), inFile.formula].flatMap((tree) =>
      tree === undefined ? [] : namesIn(tree),
    );
    // A table whose lists the file lacks is read figure by figure, as in the book.
    if (!lists.every((list) => namedValue(list) !== undefined || this.#held.hasList(list)))
      return { formula: declared, parts: [] };
    const parts: DeclaredPart[] = [];
    for (const [header, tree] of inFile.parts) {
      const part = withParts({ ...declared, formula: tree, must: [], emptyWithout: [] }, parts);
      const spelt = this.#spelt(name, plan, part);
      if ('why' in spelt) throw new Error(`${name}, ${header}: ${spelt.why}`);
      const answer = answerOf(spelt, this.#scope(name));
      this.#workings.get(name)?.add({ header, doc: `part of ${column.header}`, formula: withoutMarks(spelt) }, answer);
      parts.push({ text: printed(tree), header });
    }
    const { optional } = declared;
    return {
      formula:
        inFile.formula === undefined
          ? declared
          : { ...declared, formula: inFile.formula, optional: notReplaced(optional, inFile.formula) },
      parts,
    };
  }

  /** A declared formula in plain arithmetic over own and working columns, the marks of its cells still in it. */
  #spelt(name: string, plan: CompiledSheet, declared: DeclaredFormula): Node | NoFormula {
    const answers = this.#scope(name);
    const scope = guardScope(name);
    const workings = this.#workings.get(name);
    const tree = guarded(declared, {
      ...scope,
      column(header) {
        const part = workings?.answer(header);
        return part === undefined ? scope.column(header) : { words: !part.number };
      },
      wrong: (cells) => this.#wrong(name, cells),
    });
    const plain = plainArithmetic(tree, {
      functions: forms.functions,
      answers,
      checked: (cell) => this.#checked(name, cell),
    });
    const whole = forms.tree(
      literalLookups(adjacentVerdicts(plain, plan), (value) => answerOf(value, answers).number),
      undefined,
      answers,
    );
    if (whole !== undefined) return folded(plainRefusals(whole, refused));
    const without = nodesOf(plain).flatMap((node) =>
      node.type === 'call' && forms.functions.get(node.name)?.plain(new Set()) === null ? [node.name] : [],
    );
    return { why: `${without.at(-1) ?? 'a function in it'} has no equivalent in standard functions` };
  }

  #heldAnswer(sheet: string, header: string, answer: Answer): Answer {
    if (this.#held.mixed(sheet, header)) return unknownAnswer;
    return this.#held.overridden(sheet, header) ? { ...unknownAnswer, number: answer.number } : answer;
  }

  #scope(sheet: string): AnswerScope {
    return {
      column: (name) => {
        const { sheet: other = sheet, header } = slotParts(name);
        return this.#workings.get(other)?.answer(header) ?? this.#answers.get(`${other}.${header}`) ?? unknownAnswer;
      },
      named: (name) => {
        const value = namedValue(name);
        if (value === undefined) return { ...unknownAnswer, number: this.#held.hasList(name) };
        // Its name stands for a number that is not allowed.
        if (this.#held.checkedName(name) !== undefined) return unknownAnswer;
        return isWords(value.kind) ? unknownAnswer : answerWithin(value);
      },
    };
  }

  /** The cell beside a cell that holds its number or an error. */
  #checked(sheet: string, cell: Node): Node | undefined {
    switch (cell.type) {
      case 'name':
        return this.#held.checkedName(cell.name);
      case 'placeholder':
        return this.#checkedColumn(sheet, cell.name);
      case 'call': {
        const [list, ...rest] = cell.args;
        const beside = list?.type === 'placeholder' ? this.#checkedColumn(sheet, list.name) : undefined;
        return beside === undefined ? undefined : { ...cell, args: [beside, ...rest] };
      }
      default:
        return undefined;
    }
  }

  #checkedColumn(sheet: string, name: string): Node | undefined {
    const { sheet: given, header } = slotParts(name);
    const other = given ?? sheet;
    const plan = compiledSheets.get(other);
    const column = plan?.columns[plan.position.get(header) ?? -1];
    if (column === undefined || isWords(column.kind)) return undefined;
    if (isComputed(column) && !hasBounds(column) && !this.#standsAsGiven(other, header)) return undefined;
    const beside = checkedHeader(header);
    this.#workings
      .get(other)
      ?.add(
        {
          header: beside,
          doc: `${header} where it is a number that is allowed, otherwise an error`,
          formula: checkedFormula(placeholder(header), column),
          of: header,
        },
        answerWithin(column),
      );
    return placeholder(given === undefined ? beside : `${given}.${beside}`);
  }

  /** Whether a computed column holds anything: a user's content, or values, an empty text as an empty cell. */
  #standsAsGiven(sheet: string, header: string): boolean {
    const position = compiledSheets.get(sheet)?.position.get(header) ?? -1;
    const formula = this.#formulas.get(sheet)?.get(position);
    return this.#held.mixed(sheet, header) || (formula !== undefined && 'why' in formula);
  }

  /** Whether more of some cells are filled than hold what is allowed there. */
  #wrong(sheet: string, cells: Parameters<NonNullable<GuardScope['wrong']>>[0]): Node {
    const allowed = cells.map(([cell, nature]) => {
      if (cell.type !== 'placeholder') throw new Error(`${printed(cell)} is no column of ${sheet}`);
      if (!nature.words) return this.#checkedColumn(sheet, cell.name) ?? cell;
      const formula = allowedFormula(cell, nature);
      const doc = `1 where ${cell.name} is a word that is allowed, otherwise an error`;
      const one = { number: true, low: 1, open: false, high: 1 };
      return this.#workings.get(sheet)?.add({ header: allowedHeader(cell.name), doc, formula }, one) ?? cell;
    });
    return {
      type: 'binary',
      left: call('COUNTA', ...cells.map(([cell]) => cell)),
      operator: '>',
      right: call('COUNT', ...allowed),
    };
  }
}

/** The declared sheets as a book's file spells them. */
export function fileSheets(held: HeldOtherwise): ReadonlyMap<string, FileSheet> {
  const sheets = new FileSheets(held);
  return new Map([...compiledSheets.keys()].map((name) => [name, sheets.sheet(name)]));
}
