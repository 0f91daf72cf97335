import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { filesIn, textOf } from './program-files.ts';

/** Words that were agreed out of what people read, each with what stands in its place. */
const agreedOut: readonly (readonly [pattern: RegExp, instead: string])[] = [
  [/(?<!\bat )\b(?:least|greatest)\b(?! cautious)/i, 'minimum, maximum'],
  [/(?<!\b(?:nothing|anything) )\belse\b/i, 'otherwise, by default'],
  [/\bstands\b|\bat a stand\b/i, 'is stopped, is entered, appears'],
  [/\bdriven\b/i, 'drive pulley'],
  [/\brollers?\b(?! angle)/i, 'idlers'],
  [/(?<!-)\btold\b/i, 'reported, listed'],
  [/\broutes?\b/i, 'methods'],
  [/\bwill not do\b|\bsuffices?\b|\bgo(?:es)? first\b|\btakes? back\b|\bgo(?:es)? round\b/i, 'plain verbs'],
  [/\bpermitted tension\b/i, 'belt rating'],
  [/\bbelt consumed\b/i, 'belt lost to skew'],
  [/\bcrew hours?\b/i, 'labour hours'],
  [/\boutage hours?\b/i, 'downtime'],
  [/\bsaw loss\b/i, 'kerf'],
];

/** Files whose texts are what other people write: names in lists, words and steps of earlier versions. */
const others = [/names\.ts$/, /choice-words\.ts$/, /superseded-steps\.ts$/];

/** Names of before, beside the present ones. */
const ofBefore = /^formerly$|^formerWords$/;

interface Text {
  readonly line: number;
  readonly text: string;
}

const isText = (node: ts.Node): node is ts.LiteralLikeNode =>
  ts.isStringLiteral(node) ||
  ts.isNoSubstitutionTemplateLiteral(node) ||
  ts.isTemplateHead(node) ||
  ts.isTemplateMiddle(node) ||
  ts.isTemplateTail(node);

/** A text without the names by which styles know its elements. */
const shown = (text: string): string => text.replaceAll(/\bclass="[^"]*/g, '');

/** The texts of a file that are sentences or labels of more than one word; keys and paths are none. */
function textsIn(text: string): Text[] {
  const source = ts.createSourceFile('some.ts', text, ts.ScriptTarget.Latest, true);
  const found: Text[] = [];
  const look = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isLiteralTypeNode(node)) return;
    if (ts.isPropertyAssignment(node) && ofBefore.test(node.name.getText())) return;
    if (isText(node) && /\p{L} \p{L}/u.test(shown(node.text)))
      found.push({ line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, text: shown(node.text) });
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

const faults = (file: string, text: string): string[] =>
  textsIn(text).flatMap((item) =>
    agreedOut.flatMap(([pattern, instead]) => {
      const [word] = pattern.exec(item.text) ?? [];
      return word === undefined
        ? []
        : [`${file}:${item.line}: "${word}" in "${item.text.trim().slice(0, 90)}"; ${instead}`];
    }),
  );

describe('words that people read', () => {
  test('hold none that was agreed out', () => {
    const files = ['src', 'sheets']
      .flatMap((folder) => filesIn(folder))
      .filter((file) => !others.some((other) => other.test(file)));
    expect(files.length).toBeGreaterThan(300);
    expect(files.flatMap((file) => faults(file, textOf(file)))).toEqual([]);
  });
  test('are found wherever they are', () => {
    const bad = [
      'const a = `the least ${1} of it`;',
      "say('one thing, ' + 'else the driven pulley');",
      "const b = { doc: 'at least one greatest' };",
    ].join('\n');
    expect(faults('a.ts', bad).map((fault) => fault.replace(/;.*/, ''))).toEqual([
      'a.ts:1: "least" in "the least"',
      'a.ts:2: "else" in "else the driven pulley"',
      'a.ts:2: "driven" in "else the driven pulley"',
      'a.ts:3: "greatest" in "at least one greatest"',
    ]);
    expect(faults('a.ts', "const c = { formerly: 'Least thickness' }; import('./the least.ts');")).toHaveLength(1);
    expect(faults('a.ts', "const d = { formerly: 'Least thickness', doc: 'at least 3' };")).toEqual([]);
  });
});
