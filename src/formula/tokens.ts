/** Formula text cut into its smallest pieces. */

/** Text that is no formula; the message says which character, for the planner. */
export class FormulaSyntaxError extends Error {
  readonly position: number;
  constructor(message: string, position: number) {
    super(message);
    this.name = 'FormulaSyntaxError';
    this.position = position;
  }
}

type TokenType = 'number' | 'text' | 'error' | 'reference' | 'word' | 'placeholder' | 'operator' | 'punctuation';
export interface Token {
  readonly type: TokenType;
  readonly text: string;
  readonly position: number;
}

const sheetPrefix = String.raw`(?:(?:'(?:[^']|'')+'|[A-Za-z_][\w.]*)!)?`;
const cell = String.raw`\$?[A-Za-z]{1,3}\$?[0-9]{1,7}`;
const column = String.raw`\$?[A-Za-z]{1,3}`;
const wholeRow = String.raw`\$?[0-9]{1,7}`;
const lexemes: readonly (readonly [TokenType | 'space', RegExp])[] = [
  ['space', /\s+/y],
  ['text', /"(?:[^"]|"")*"/y],
  ['error', /#(?:VALUE!|NUM!|N\/A|DIV\/0!|REF!|NAME\?|NULL!|CYCLE!|SPILL!)/y],
  [
    'reference',
    new RegExp(
      `${sheetPrefix}(?:${cell}:${cell}|${column}:${column}(?![\\w(])|${wholeRow}:${wholeRow}|${cell}(?![\\w.(]))`,
      'y',
    ),
  ],
  ['number', /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y],
  ['word', /[A-Za-z_\\][\w.]*/y],
  ['operator', /<=|>=|<>|[-+*/^&=<>%]/y],
  ['punctuation', /[(),;{}]/y],
];

const placeholder = /\{([A-Za-z][^{}",;]*)\}/y;

/** The first kind of lexeme that a text holds at a place. */
function lexemeAt(
  source: string,
  position: number,
): { readonly type: TokenType | 'space'; readonly text: string } | undefined {
  for (const [type, pattern] of lexemes) {
    pattern.lastIndex = position;
    const text = pattern.exec(source)?.[0];
    if (text !== undefined) return { type, text };
  }
  return undefined;
}

/** A formula's tokens, blanks left out. Throws FormulaSyntaxError at a character without a meaning. */
export function tokens(source: string): Token[] {
  const found: Token[] = [];
  let position = 0;
  while (position < source.length) {
    placeholder.lastIndex = position;
    const slot = placeholder.exec(source);
    if (slot !== null) {
      found.push({ type: 'placeholder', text: slot[1] ?? '', position });
      position = placeholder.lastIndex;
      continue;
    }
    const match = lexemeAt(source, position);
    if (match === undefined) {
      throw new FormulaSyntaxError(
        `"${source.charAt(position)}" is not expected here (character ${position + 1} of the formula)`,
        position,
      );
    }
    if (match.type !== 'space') found.push({ type: match.type, text: match.text, position });
    position += match.text.length;
  }
  return found;
}
