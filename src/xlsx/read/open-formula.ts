/**
 * A formula of OpenDocument in the notation of other spreadsheet programs; undefined when it can't be told for sure.
 *
 * `of:=SUM([.A1:.B2];[$Plates.C3])` is `SUM(A1:B2,Plates!C3)`. Formulas of other grammars, and references to other
 * files, are not read: their values stay. Source: OASIS OpenDocument 1.2, part 2, 5.8 (references) and 5.6 (lists).
 */
export function openFormula(text: string): string | undefined {
  const formula = /^of:=(.*)$/s.exec(text)?.[1];
  if (formula === undefined) return undefined;
  let known = true;
  const reference = (inside: string): string => {
    const parts = inside.split(/:(?=\$?(?:'|[^':.]*\.))/);
    const read = parts.map((part) => /^(?:(\$?(?:'(?:[^']|'')+'|[^'.#]*)))?\.(\$?[A-Z]{0,3}\$?\d{0,7})$/i.exec(part));
    if (read.some((part) => part === null || part[2] === '')) {
      known = false;
      return inside;
    }
    const sheet = (read[0]?.[1] ?? '').replace(/^\$/, '');
    return `${sheet === '' ? '' : `${sheet}!`}${read.map((part) => part?.[2] ?? '').join(':')}`;
  };
  // Texts and brackets are told apart first: a semicolon in a text parts no arguments.
  const plain = formula.replaceAll(/"(?:[^"]|"")*"|\[([^\]]*)\]|;|[{}|~]/g, (part, inside: string | undefined) => {
    if (part.startsWith('"')) return part;
    if (inside !== undefined) return reference(inside);
    if (part === ';') return ',';
    known = false;
    return part;
  });
  return known ? plain : undefined;
}
