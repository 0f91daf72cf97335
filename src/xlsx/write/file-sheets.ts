import { type Answer, answerOf, type AnswerScope, answerWithin, unknownAnswer } from '../../formula/answers.ts';
import { plainArithmetic, withoutMarks } from '../../formula/file-spelling.ts';
import { type DeclaredFormula, guarded } from '../../formula/guard-places.ts';
import type { GuardScope } from '../../formula/guard-uses.ts';
import { folded, plainRefusals } from '../../formula/folded.ts';
import { refused } from '../../formula/guards.ts';
import { PlainForms } from '../../formula/plain.ts';
import { type Node, nodesOf, parsed, printed } from '../../formula/syntax.ts';
import { completenessColumns, wrongColumns } from '../../../sheets/belts/completeness.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { functions } from '../../functions/index.ts';
import { type Column, isComputed } from '../../sheet/declaration.ts';
import { declaredFormula, fileForm, slotParts } from '../../sheet/declared-formula.ts';
import { isWords } from '../../units/quantities.ts';
import type { CompiledSheet } from '../../workbook/compiled-sheet.ts';
import { compiledSheets, computingSteps, guardScope, namedValue } from '../../workbook/declared.ts';
import { allowedFormula, checkedFormula, hasBounds } from './checked-cells.ts';
import { type DeclaredPart, namesIn, notReplaced, withParts } from './declared-parts.ts';
import { tidied } from './tidied.ts';
import { literalLookups } from './literal-lookups.ts';
import { adjacentVerdicts } from './adjacent-verdicts.ts';
import { foundInTable, withListNames } from './laid-tables.ts';
import { verdictLookups } from './verdict-lookups.ts';
import type { HeldOtherwise } from './held-otherwise.ts';
import { sharedParts } from './shared-parts.ts';
import { SheetWorkings } from './sheet-workings.ts';
import { withLookedUpParts } from './looked-up-parts.ts';
import { withChecksUsedOnce } from './used-once.ts';
import { checkedHeader, type FileSheet, type NoFormula, type WorkingColumn } from './working-columns.ts';

/**
 * The computed columns of an exported book as its file spells them, and the working columns that they refer to: what a
 * person would have laid out beside the sheet to keep its formulas short.
 */

const forms = new PlainForms(functions, true);
const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });
const placeholder = (name: string): Node => ({ type: 'placeholder', name });

const allowedHeader = (header: string): string => `${header}, allowed`;

/** What is told of a record's inputs comes first, the shortest answer before what it rests on. */
const completenessPlace = ({ header }: WorkingColumn): number =>
  -completenessColumns.findIndex((column) => column.header === header);

class FileSheets {
  readonly #held: HeldOtherwise;
  readonly #workings = new Map<string, SheetWorkings>();
  readonly #answers = new Map<string, Answer>();
  /** Columns that are numbers, or errors, where some cells are numbers, and else empty; by sheet and header. */
  readonly #numberWith = new Map<string, readonly string[]>();
  readonly #formulas = new Map<string, Map<number, Node | NoFormula>>();

  constructor(held: HeldOtherwise) {
    this.#held = held;
    for (const name of compiledSheets.keys()) {
      this.#workings.set(name, new SheetWorkings());
      this.#formulas.set(name, new Map());
    }
    this.#addCompleteness(completenessColumns.slice(0, wrongColumns));
    for (const { plan, column } of computingSteps) this.#add(plan, column);
    this.#addCompleteness(completenessColumns.slice(wrongColumns));
  }

  sheet(name: string): FileSheet {
    const [formulas, workings] = [this.#formulas.get(name), this.#workings.get(name)];
    if (formulas === undefined || workings === undefined) throw new Error(`there is no sheet ${name}`);
    return sharedParts(
      formulas,
      [...workings.columns.values()].toSorted((one, other) => completenessPlace(one) - completenessPlace(other)),
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
    const { above, min } = fileForm(column);
    const low = above ?? min;
    const isTold = low !== undefined && !('why' in spelt) && !this.#usesOverridden(name, spelt);
    const told = isTold ? { ...answer, low, open: above !== undefined } : answer;
    this.#answers.set(`${name}.${column.header}`, this.#heldAnswer(name, column.header, told));
    const { emptyWithout } = declared;
    const [, full] = !('why' in spelt) && spelt.type === 'call' && spelt.name === 'IF' ? spelt.args : [];
    if (emptyWithout.length > 0 && full !== undefined && !this.#held.mixed(name, column.header))
      if (answerOf(full, this.#scope(name)).number)
        this.#numberWith.set(`${name}.${column.header}`, emptyWithout.map(printed));
  }

  /** What a file says of a belt's inputs, where it has the tables for it. */
  #addCompleteness(columns: readonly (typeof completenessColumns)[number][]): void {
    for (const { header, doc, formula } of columns) {
      const tree = parsed(formula);
      if (!namesIn(tree).every((name) => this.#held.hasList(name))) return;
      this.#workings.get(belts.name)?.add({ header, doc, formula: tree }, unknownAnswer);
    }
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
    // A table whose lists the file lacks is read figure by figure, as in the book; so is one in which a word would be
    // looked for that other programs take for a pattern.
    if (
      !lists.every((list) => namedValue(list) !== undefined || this.#held.hasList(list)) ||
      [inFile.formula, ...inFile.parts.values()].some((tree) => tree !== undefined && this.#looksForPattern(name, tree))
    )
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

  #looksForPattern(sheet: string, tree: Node): boolean {
    return nodesOf(tree).some((node) => {
      const [sought] = node.type === 'call' && node.name === 'VLOOKUP' ? node.args : [];
      return (
        sought !== undefined &&
        nodesOf(sought).some((cell) => cell.type === 'placeholder' && this.#held.hasPattern(sheet, cell.name))
      );
    });
  }

  /** Whether a user's numbers stand in place of a column's formula that this one uses. */
  #usesOverridden(sheet: string, tree: Node): boolean {
    return nodesOf(tree).some((node) => {
      if (node.type !== 'placeholder') return false;
      const { sheet: other = sheet, header } = slotParts(node.name);
      return this.#held.overridden(other, header);
    });
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
      numberWith: (cell) => (cell.type === 'placeholder' ? this.#numberWith.get(`${name}.${cell.name}`) : undefined),
    });
    const whole = forms.tree(
      literalLookups(
        verdictLookups(adjacentVerdicts(plain, plan), answers, (table) => this.#held.hasList(table)),
        (value) => answerOf(value, answers).number,
      ),
      undefined,
      answers,
    );
    if (whole !== undefined) {
      const short = withListNames(tidied(folded(plainRefusals(whole, refused))), (list) => this.#held.hasList(list));
      return this.#lookedUp(name, short);
    }
    const without = nodesOf(plain).flatMap((node) =>
      node.type === 'call' && forms.functions.get(node.name)?.plain(new Set()) === null ? [node.name] : [],
    );
    return { why: `${without.at(-1) ?? 'a function in it'} has no equivalent in standard functions` };
  }

  /** The tree with what is made of another sheet's figures alone worked out there. */
  #lookedUp(name: string, tree: Node): Node {
    const isPart = (sheet: string): boolean => compiledSheets.get(sheet)?.declaration.partOf !== undefined;
    if (isPart(name)) return tree;
    return withLookedUpParts(tree, (sheet, formula) => {
      const answer = answerOf(formula, this.#scope(sheet));
      return isPart(sheet) ? undefined : this.#workings.get(sheet)?.lookedUp(withoutMarks(formula), name, answer);
    });
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
        if (value === undefined) return this.#held.hasList(name) ? foundInTable(name) : unknownAnswer;
        // Its name stands for a number that is not allowed.
        if (this.#held.checkedName(name) !== undefined) return unknownAnswer;
        return isWords(value.kind) ? unknownAnswer : answerWithin(this.#held.constant(name) ?? value);
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
  return withChecksUsedOnce(new Map([...compiledSheets.keys()].map((name) => [name, sheets.sheet(name)])));
}
