import { withShownMark } from '../units/shown-mark.ts';
/* oxlint-disable max-lines -- one walk over a formula, whose steps call each other and share what they found. */
import type { EngineeringFunction } from '../formula/define.ts';
import { FormulaReading, type Row, treeOf } from './formula-reading.ts';
import { parameterAt } from '../formula/parameter.ts';
import type { Guard, Node } from '../formula/syntax.ts';
import { conditionsOf } from '../formula/guards.ts';
import { isFault, type Value } from '../formula/values.ts';
import { type Column, isComputed } from '../sheet/declaration.ts';
import { routeInputs } from '../../sheets/belts/tension-methods.ts';
import { shortestByFactor } from '../../sheets/values/tables.ts';
import { conditionalCells, isConditional } from '../workbook/conditional-records.ts';
import type { CompiledSheet } from '../workbook/compiled-sheet.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { type CellPlace, placeKey } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { emptyIssue, issueAt } from '../records/cell-issue.ts';
import { isFallback, isWrong, leavesOf } from './formula-parts.ts';
import { type Holding, Holdings } from './holdings.ts';
import { inputAt, type Issue } from '../records/inputs.ts';
import { listed } from '../sheet/words.ts';

/** A cell to look at: what is wrong there, and what to do. */
export interface Cause extends CellPlace, Issue {
  readonly header: string;
}

/** Causes, each cell once, where it comes first. */
const distinct = (causes: readonly Cause[]): Cause[] => {
  if (causes.length < 2) return [...causes];
  const seen = new Set<string>();
  return causes.filter((cause) => {
    const mark = placeKey(cause);
    return seen.has(mark) ? false : seen.add(mark);
  });
};

/** A computed cell whose word, though no error, says that inputs are missing; and what to do then. */
const missingWords: Readonly<
  Record<string, { readonly word: string; readonly look: string; readonly slips: readonly string[] } & Issue>
> = {
  'Tension from': {
    word: 'not known',
    look: 'Known tension',
    slips: ['Tension method', ...routeInputs],
    wrong: 'there are four methods for the working tension, and none has its inputs',
    remedy:
      `enter it in Known tension; or enter Capacity, with Speed, Pulley centres of at least ${shortestByFactor} m, ` +
      `Lift, ` +
      `Wrap angle and Drive friction; ` +
      'or Power, with Speed, Wrap angle and Drive friction; or as a last resort Belt rating, or a Construction ' +
      'that names ' +
      'the strength',
  },
};

const mustWords: Readonly<Record<string, string>> = {
  '<': 'be less than',
  '<=': 'not be more than',
  '>': 'be more than',
  '>=': 'not be less than',
  '=': 'be',
  '<>': 'not be',
};

/** A function's message without its name and with numbers that people can read. */
const plainMessage = (message: string): string =>
  message
    .replace(/^[A-Z]+: /, '')
    .replaceAll(/\d+\.\d{4,}/g, (number) => withShownMark(String(Number(Number(number).toPrecision(6)))));

const isChoice = (node: Node): boolean => node.type === 'call' && node.name === 'IF';

/**
 * Which inputs keep a cell from having a value.
 *
 * Follows the sheets' formulas the way they were computed: only the branches that were taken, down to cells that are
 * empty, unreadable or out of bounds. Where all inputs are right by themselves and impossible together, the cause is
 * the first of them, with the function's own message.
 */
export class RootCauses {
  readonly #book: Workbook;
  readonly #reading: FormulaReading;
  readonly #holdings: Holdings;
  /**
   * Causes of cells that were asked for before: many formulas lead to the same ones. A cell that is being looked at has
   * none yet. By sheet and the cell's number within it, as this is asked some hundred times a belt.
   */
  readonly #found = new Map<CompiledSheet, Map<number, Cause[]>>();

  constructor(book: Workbook) {
    this.#book = book;
    this.#reading = new FormulaReading(book);
    this.#holdings = new Holdings(this.#reading);
  }

  /** Causes behind a computed cell, each cell once. */
  of(sheet: string, record: number, header: string): Cause[] {
    const plan = compiledSheets.get(sheet);
    const column = plan?.position.get(header);
    if (plan === undefined || column === undefined) throw new Error(`the sheet ${sheet} has no column ${header}`);
    return distinct(this.#cell({ plan, record }, column));
  }

  /** Causes of a cell's value: its own, or those its formula leads to. */
  #cell(row: Row, column: number): Cause[] {
    const { plan, record } = row;
    const place = { sheet: plan.declaration.name, record, column };
    const declared = plan.columns[column];
    if (declared === undefined) return [];
    if (!isComputed(declared) || this.#book.content(place) !== null) return [this.#own(place, declared)];
    const missing = missingWords[declared.header];
    if (missing !== undefined && this.#book.value(place) === missing.word) {
      const slips = missing.slips.flatMap((header) => this.#slip(row, header));
      if (slips.length > 0) return slips;
      return [
        {
          ...place,
          column: plan.position.get(missing.look) ?? column,
          header: missing.look,
          wrong: missing.wrong,
          remedy: missing.remedy,
        },
      ];
    }
    let found = this.#found.get(plan);
    if (found === undefined) this.#found.set(plan, (found = new Map()));
    const mark = record * plan.columns.length + column;
    const kept = found.get(mark);
    if (kept !== undefined) return kept;
    found.set(mark, []);
    const tree = treeOf(plan, column);
    const causes = tree === undefined ? [] : distinct(this.#blamed(tree, row));
    found.set(mark, causes);
    if (causes.length > 0) return causes;
    const value = this.#book.value(place);
    const why =
      isFault(value) && value.message !== ''
        ? plainMessage(value.message)
        : `its formula gives ${this.#reading.shown(place, declared)}`;
    return [
      {
        ...place,
        header: declared.header,
        wrong: `${declared.header} cannot be calculated: ${why}`,
        remedy: 'check the inputs of its formula',
      },
    ];
  }

  /** An input as a cause when what it holds is not allowed. */
  #slip({ plan, record }: Row, header: string): Cause[] {
    const column = plan.position.get(header) ?? -1;
    const place = { sheet: plan.declaration.name, record, column };
    const issue = issueAt(this.#book, place);
    return issue === undefined ? [] : [{ ...place, header, ...issue }];
  }

  /** A cell of the user's as its own cause: empty, unreadable, out of bounds, or a formula that fails. */
  #own(place: CellPlace, declared: Column): Cause {
    const value = this.#book.value(place);
    const input = inputAt(this.#book, place);
    const empty =
      input !== undefined && (value === null || value === '') ? emptyIssue(input, this.#book.units) : undefined;
    const issue = issueAt(this.#book, place) ??
      empty ?? {
        wrong: `${declared.header} is ${this.#reading.shown(place, declared)}`,
        remedy: 'check that it is correct',
      };
    return {
      ...place,
      header: declared.header,
      wrong: place.sheet === 'Belts' ? issue.wrong : `${this.#reading.recordName(place)}: ${issue.wrong}`,
      remedy: issue.remedy,
    };
  }

  #named(name: string): Cause[] {
    const home = this.#reading.namedPlace(name);
    if (home === undefined) return [];
    const { sheet, record, column, found } = home;
    const place = { sheet, record, column };
    const header = compiledSheets.get(sheet)?.columns[column]?.header ?? '';
    if (!found) return [{ ...place, header, wrong: `the sheet ${sheet} has no row named ${name}`, remedy: 'add it' }];
    return [
      {
        ...place,
        header,
        ...(issueAt(this.#book, place) ?? {
          wrong: `${name} is ${this.#reading.shown(place, {})}`,
          remedy: 'check that it is correct',
        }),
      },
    ];
  }

  /** Causes of a formula's error. */
  #blamed(node: Node, row: Row): Cause[] {
    switch (node.type) {
      case 'group':
      case 'unary':
      case 'percent':
        return this.#blamed(node.value, row);
      case 'placeholder': {
        const column = row.plan.position.get(node.name);
        return column === undefined ? [] : this.#cell(row, column);
      }
      case 'name':
        return this.#named(node.name);
      case 'binary':
        return this.#blamedAmong([node.left, node.right], row);
      case 'call':
        return this.#blamedCall(node, row);
      case 'guard':
        return this.#blamedGuard(node, row);
      default:
        return [];
    }
  }

  /** Causes of what a guard does not let through; of what stands behind it when it does. */
  #blamedGuard(guard: Guard, row: Row): Cause[] {
    const missing = this.#missing(guard, row);
    if (missing.length > 0) return missing;
    const unmet = conditionsOf(guard).filter((condition) => this.#reading.value(condition, row) !== true);
    if (unmet.length > 0) return unmet.flatMap((condition) => this.#unmet(condition, false, row));
    const behind = this.#blamed(guard.value, row);
    return behind.length > 0 ? behind : guard.cells.flatMap(({ cell }) => this.#wrongCells(cell, row, true));
  }

  /** Causes of a guard's cells without numbers, and of those of the guards next behind it. */
  #missing({ cells, value }: Guard, row: Row): Cause[] {
    const without = cells.filter(({ cell }) => typeof this.#reading.value(cell, row) !== 'number');
    if (without.length === 0) return [];
    const causes = without.flatMap(({ cell }) => this.#wrongCells(cell, row, true));
    return value.type === 'guard' ? [...causes, ...this.#missing(value, row)] : causes;
  }

  /** Causes of those parts that are errors; when none is, of those that hold nothing to compute with. */
  #blamedAmong(parts: readonly Node[], row: Row): Cause[] {
    const failing = parts.filter((part) => this.#reading.fails(part, row));
    return failing.length > 0
      ? failing.flatMap((part) => this.#blamed(part, row))
      : parts.flatMap((part) => this.#wrongCells(part, row));
  }

  #blamedCall(call: Node & { readonly type: 'call' }, row: Row): Cause[] {
    const [first, second, third] = call.args;
    const given = call.args.filter((argument) => argument !== undefined);
    if (call.name === 'IF' && first !== undefined) {
      const truth = this.#reading.value(first, row);
      if (isFault(truth)) return this.#blamed(first, row);
      const holds = truth === true || (typeof truth === 'number' && truth !== 0);
      const branch = holds ? second : third;
      const inside = branch === undefined || isFallback(branch) ? [] : this.#blamed(branch, row);
      if (inside.length > 0) return inside;
      // What the other branch would ask for next is said at once, where it is not another choice.
      const next = !holds && second?.type === 'guard' && !isChoice(second.value) ? this.#missing(second, row) : [];
      return [...this.#unmet(first, holds, row), ...next];
    }
    // A look-up fails for what is looked up, a word that is put in another's place for what it is put into.
    if (call.name === 'MATCH' || call.name === 'SUBSTITUTE') return first === undefined ? [] : this.#blamed(first, row);
    if (call.name === 'INDEX') {
      if (second !== undefined && this.#reading.fails(second, row)) return this.#blamed(second, row);
      const found = this.#reading.lookedUp(call, row);
      return found === undefined ? [] : this.#cell({ plan: found.plan, record: found.record }, found.column);
    }
    if (isConditional(call.name)) {
      return conditionalCells(this.#book, call, (node) => this.#reading.value(node, row)).flatMap((place) => {
        const plan = compiledSheets.get(place.sheet);
        return plan === undefined || typeof this.#book.value(place) === 'number'
          ? []
          : this.#cell({ plan, record: place.record }, place.column);
      });
    }
    const definition = row.plan.scope.functions.get(call.name);
    return definition === undefined
      ? this.#blamedAmong(given, row)
      : this.#blamedArguments(definition, given, call, row);
  }

  /**
   * Causes of an engineering function's refusal: arguments that are errors, otherwise wrong ones, otherwise all of them
   * together.
   */
  #blamedArguments(definition: EngineeringFunction, args: readonly Node[], call: Node, row: Row): Cause[] {
    const values = args.map((argument) => this.#reading.value(argument, row));
    const wrong = args.flatMap((argument, index): { readonly argument: Node; readonly fails: boolean }[] => {
      const [, parameter] = parameterAt(definition.parameters, index) ?? [];
      const value = values[index] ?? null;
      if (parameter === undefined) return [];
      if (isWrong(value, parameter)) return [{ argument, fails: isFault(value) }];
      return parameter.kind === 'verdict' && this.#isUnreadable(definition, values, index, argument, row)
        ? [{ argument, fails: false }]
        : [];
    });
    const together = (nodes: readonly Node[]): Cause[] =>
      this.#together(
        nodes.flatMap((argument) => this.#holdings.of(argument, row)),
        this.#reading.value(call, row),
      );
    if (wrong.length === 0) return together(args);
    return wrong.flatMap(({ argument, fails }) => {
      if (fails) return this.#blamed(argument, row);
      const own = this.#wrongCells(argument, row);
      return own.length > 0 ? own : together([argument]);
    });
  }

  /**
   * Whether a word keeps a function from a verdict: it is missing or not allowed in its cell, and another word would
   * tell.
   */
  #isUnreadable(
    definition: EngineeringFunction,
    values: readonly Value[],
    index: number,
    argument: Node,
    row: Row,
  ): boolean {
    const unreadable =
      typeof values[index] !== 'string' ||
      this.#wrongCells(argument, row).some((cause) => issueAt(this.#book, cause) !== undefined);
    return unreadable && (index === 0 || definition.evaluate(values.with(index, 'no')) !== definition.evaluate(values));
  }

  #together(cells: readonly Holding[], value: Value): Cause[] {
    // What is empty is at odds with nothing; a cell that is reached in two ways is told once.
    const filled = cells.filter(
      (cell, index) =>
        this.#book.content(cell) !== null && cells.findIndex((other) => placeKey(other) === placeKey(cell)) === index,
    );
    const odd = filled.length === 0 ? cells : filled;
    const [look] = odd;
    if (look === undefined) return [];
    const why = isFault(value) ? plainMessage(value.message) : `together they give ${String(value)}`;
    const { sheet, record, column, header } = look;
    return [
      {
        sheet,
        record,
        column,
        header,
        wrong:
          `${listed([...new Set(odd.map(({ says }) => says))])}` +
          `${odd.length > 1 ? ' do not agree' : ' is not allowed'}`,
        remedy: why,
      },
    ];
  }

  /**
   * Cells in an expression that hold nothing it can use, or what is not allowed there; of `all`, every one when none
   * does.
   */
  #wrongCells(expression: Node, row: Row, all = false): Cause[] {
    const leaves = leavesOf(expression);
    const wrong = leaves.flatMap((leaf) => {
      const value = this.#reading.value(leaf, row);
      const causes = this.#blamed(leaf, row);
      return typeof value === 'number' ? causes.filter((cause) => issueAt(this.#book, cause) !== undefined) : causes;
    });
    return wrong.length > 0 || !all ? wrong : leaves.flatMap((leaf) => this.#blamed(leaf, row));
  }

  /** A side of a comparison; a computed cell with its value and what that comes from. */
  #compared(side: Node, { says }: Holding, { plan, record }: Row): string {
    const column = side.type === 'placeholder' ? plan.position.get(side.name) : undefined;
    const declared = column === undefined ? undefined : plan.columns[column];
    if (column === undefined || declared === undefined || !isComputed(declared)) return says;
    return (
      `${declared.header}, ${this.#reading.shown({ sheet: plan.declaration.name, record, column }, declared)}, ` +
      `by ${says},`
    );
  }

  /** Why a condition is as it is: cells that are not numbers, not within bounds, or do not go together. */
  #unmet(condition: Node, holds: boolean, row: Row): Cause[] {
    if (condition.type === 'call' && condition.name === 'AND' && !holds) {
      return condition.args.flatMap((part) =>
        part === undefined || this.#reading.value(part, row) === true ? [] : this.#unmet(part, false, row),
      );
    }
    if (condition.type !== 'binary' || holds) return this.#wrongCells(condition, row, true);
    const wrong = this.#wrongCells(condition, row);
    const [one, other] = [this.#holdings.of(condition.left, row)[0], this.#holdings.of(condition.right, row)[0]];
    if (wrong.length > 0 || one === undefined) return wrong;
    const { sheet, record, column, header } = one;
    return [
      {
        sheet,
        record,
        column,
        header,
        wrong:
          `${this.#compared(condition.left, one, row)} must ${mustWords[condition.operator] ?? 'agree with'} ` +
          `${other === undefined ? 'what its formula allows' : this.#compared(condition.right, other, row)}`,
        remedy: 'correct one of the two',
      },
    ];
  }
}
