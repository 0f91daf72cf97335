import { FormulaSyntaxError, type Token, tokens } from './tokens.ts';

/**
 * Formula text as a tree and back.
 *
 * Reads ordinary spreadsheet syntax (the part that ISO/IEC 29500 and OpenFormula share) plus `{placeholder}`, which
 * declarations use for a parameter or a column. The tree keeps parentheses, so printing a tree that was read gives
 * the same formula. The engine evaluates users' formulas itself; this reader serves translation and the row kernel.
 */
export type Node =
  | { readonly type: 'number'; readonly value: number; readonly text: string }
  | { readonly type: 'text'; readonly value: string }
  | { readonly type: 'boolean'; readonly value: boolean }
  | { readonly type: 'error'; readonly code: string }
  | { readonly type: 'reference'; readonly text: string }
  | { readonly type: 'name'; readonly name: string }
  | { readonly type: 'placeholder'; readonly name: string }
  | { readonly type: 'call'; readonly name: string; readonly args: readonly (Node | undefined)[] }
  | { readonly type: 'unary'; readonly operator: '-' | '+'; readonly value: Node }
  | { readonly type: 'percent'; readonly value: Node }
  | { readonly type: 'binary'; readonly operator: string; readonly left: Node; readonly right: Node }
  | { readonly type: 'group'; readonly value: Node }
  | { readonly type: 'array'; readonly rows: readonly (readonly Node[])[] }
  | Guard;

/**
 * A part of a declared formula behind what it asks of cells (guards.ts): no formula text says it, so it is never read.
 */
export interface Guard {
  readonly type: 'guard';
  readonly cells: readonly GuardedCell[];
  /** Conditions between cells that must hold as well. */
  readonly must: readonly Node[];
  /** What a cell without a number makes of the part. */
  readonly without: 'error' | 'nothing';
  readonly value: Node;
}

/** A cell that must hold a number, within bounds where there are some. */
export interface GuardedCell {
  readonly cell: Node;
  readonly min?: number | undefined;
  readonly above?: number | undefined;
  readonly max?: number | undefined;
  /** What stands around the guard has made sure that it is a number. */
  readonly known?: true;
}

const binding: Readonly<Record<string, number>> = {
  '=': 1,
  '<>': 1,
  '<': 1,
  '>': 1,
  '<=': 1,
  '>=': 1,
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 5,
};

class Reader {
  readonly list: readonly Token[];
  readonly source: string;
  at = 0;

  constructor(source: string) {
    this.source = source;
    this.list = tokens(source);
  }

  whole(): Node {
    const node = this.expression(0);
    const rest = this.list[this.at];
    if (rest !== undefined) throw this.unexpected(rest);
    return node;
  }

  private unexpected(token: Token | undefined): FormulaSyntaxError {
    return token === undefined
      ? new FormulaSyntaxError(
          'the formula ends too early: a closing bracket or a value is missing',
          this.source.length,
        )
      : new FormulaSyntaxError(
          `"${token.text}" is not expected at character ${token.position + 1} of the formula`,
          token.position,
        );
  }

  private is(text: string): boolean {
    const token = this.list[this.at];
    return token !== undefined && (token.type === 'punctuation' || token.type === 'operator') && token.text === text;
  }

  private take(text: string): void {
    if (!this.is(text)) throw this.unexpected(this.list[this.at]);
    this.at += 1;
  }

  private expression(least: number): Node {
    let left = this.prefixed();
    for (;;) {
      const token = this.list[this.at];
      const strength = token?.type === 'operator' ? binding[token.text] : undefined;
      if (token === undefined || strength === undefined || strength <= least) return left;
      this.at += 1;
      left = { type: 'binary', operator: token.text, left, right: this.expression(strength) };
    }
  }

  private prefixed(): Node {
    if (this.is('-') || this.is('+')) {
      const operator = this.is('-') ? '-' : '+';
      this.at += 1;
      return { type: 'unary', operator, value: this.prefixed() };
    }
    let value = this.primary();
    while (this.is('%')) {
      this.at += 1;
      value = { type: 'percent', value };
    }
    return value;
  }

  private primary(): Node {
    const token = this.list[this.at];
    if (token === undefined) throw this.unexpected(token);
    if (this.is('(')) {
      this.at += 1;
      const value = this.expression(0);
      this.take(')');
      return { type: 'group', value };
    }
    if (this.is('{')) return this.array();
    this.at += 1;
    switch (token.type) {
      case 'number':
        return { type: 'number', value: Number(token.text), text: token.text };
      case 'text':
        return { type: 'text', value: token.text.slice(1, -1).replaceAll('""', '"') };
      case 'error':
        return { type: 'error', code: token.text };
      case 'reference':
        return { type: 'reference', text: token.text };
      case 'placeholder':
        return { type: 'placeholder', name: token.text };
      case 'word':
        if (this.is('(')) return this.call(token.text);
        if (/^(?:true|false)$/i.test(token.text))
          return { type: 'boolean', value: token.text.toLowerCase() === 'true' };
        return { type: 'name', name: token.text };
      default:
        throw this.unexpected(token);
    }
  }

  private call(name: string): Node {
    this.take('(');
    const args: (Node | undefined)[] = [];
    if (this.is(')')) {
      this.at += 1;
      return { type: 'call', name: name.toUpperCase(), args };
    }
    for (;;) {
      args.push(this.is(',') || this.is(')') ? undefined : this.expression(0));
      if (this.is(')')) break;
      this.take(',');
    }
    this.at += 1;
    return { type: 'call', name: name.toUpperCase(), args };
  }

  private array(): Node {
    this.take('{');
    const rows: Node[][] = [[]];
    for (;;) {
      rows.at(-1)?.push(this.expression(0));
      if (this.is('}')) break;
      if (this.is(';')) rows.push([]);
      else if (!this.is(',')) throw this.unexpected(this.list[this.at]);
      this.at += 1;
    }
    this.at += 1;
    return { type: 'array', rows };
  }
}

/** The tree of a formula; a leading equals sign is allowed. Throws FormulaSyntaxError. */
export function parsed(formula: string): Node {
  const text = formula.trim();
  return new Reader(text.startsWith('=') ? text.slice(1) : text).whole();
}

/** A tree as formula text, without an equals sign. */
export function printed(node: Node): string {
  switch (node.type) {
    case 'number':
    case 'reference':
      return node.text;
    case 'text':
      return `"${node.value.replaceAll('"', '""')}"`;
    case 'boolean':
      return node.value ? 'TRUE()' : 'FALSE()';
    case 'error':
      return node.code;
    case 'name':
      return node.name;
    case 'placeholder':
      return `{${node.name}}`;
    case 'call':
      return (
        `${node.name}(` + `${node.args.map((argument) => (argument === undefined ? '' : printed(argument))).join(',')})`
      );
    case 'unary':
      return node.operator + printed(node.value);
    case 'percent':
      return `${printed(node.value)}%`;
    case 'binary':
      return printed(node.left) + node.operator + printed(node.right);
    case 'group':
      return `(${printed(node.value)})`;
    case 'array':
      return `{${node.rows.map((row) => row.map(printed).join(',')).join(';')}}`;
    case 'guard':
      throw new Error('a guard is spelled out before its formula is printed');
  }
}

/** The tree with every node replaced by what `change` makes of it, innermost first; undefined keeps the node. */
export function mapped(node: Node, change: (node: Node) => Node | undefined): Node {
  const inner = (child: Node): Node => mapped(child, change);
  const renewed = ((): Node => {
    switch (node.type) {
      case 'call':
        return { ...node, args: node.args.map((argument) => (argument === undefined ? undefined : inner(argument))) };
      case 'unary':
      case 'percent':
      case 'group':
        return { ...node, value: inner(node.value) };
      case 'binary':
        return { ...node, left: inner(node.left), right: inner(node.right) };
      case 'array':
        return { ...node, rows: node.rows.map((row) => row.map(inner)) };
      case 'guard':
        return {
          ...node,
          cells: node.cells.map((guarded) => ({ ...guarded, cell: inner(guarded.cell) })),
          must: node.must.map(inner),
          value: inner(node.value),
        };
      default:
        return node;
    }
  })();
  return change(renewed) ?? renewed;
}

/** What stands directly within a node, in the order of the text; arguments that are left out are not there. */
export function children(node: Node): readonly Node[] {
  switch (node.type) {
    case 'call':
      return node.args.filter((argument) => argument !== undefined);
    case 'unary':
    case 'percent':
    case 'group':
      return [node.value];
    case 'binary':
      return [node.left, node.right];
    case 'array':
      return node.rows.flat();
    case 'guard':
      return [...node.cells.map(({ cell }) => cell), ...node.must, node.value];
    default:
      return [];
  }
}

/** Every node of the tree, outermost first. */
export function nodesOf(tree: Node): Node[] {
  const found: Node[] = [];
  const ahead: Node[] = [tree];
  for (let node = ahead.pop(); node !== undefined; node = ahead.pop()) {
    found.push(node);
    ahead.push(...children(node).toReversed());
  }
  return found;
}

/** A node that can stand as an operand without changing how its surroundings read. */
export const operand = (node: Node): Node =>
  node.type === 'binary' || node.type === 'unary' || node.type === 'percent' ? { type: 'group', value: node } : node;

export { FormulaSyntaxError };
