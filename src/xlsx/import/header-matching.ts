import { type Column, isComputed, type SheetDeclaration } from '../../sheet/declaration.ts';
import { type Unit, unitSuits } from '../../units/reading.ts';
import { bestPairs } from './assignment.ts';
import { type HeaderForm, headerForms, headerMark, type HeaderText } from './header-forms.ts';
import { telling, wordKey } from './header-words.ts';
import { leastSuggestion, nameIndex, type NameIndex, type Scored, scoresOf } from './name-index.ts';

/**
 * Which declared column a list's header means, by its words.
 *
 * A header that says exactly what a column is called is certain (1). Other names, orders of words, shortened and
 * mistyped words are less so. What stays below `leastConfidence`, or could as well mean another column, is only
 * suggested: a wrong match computes wrong joints without a word, a missing one shows.
 */
export const leastConfidence = 0.72;
/** Two candidates closer than this are taken for equally good. */
const tooClose = 0.04;

interface Candidate {
  readonly column: Column;
  readonly confidence: number;
  readonly why: string;
  /** The unit that the header names, when it suits the column. */
  readonly unit?: Unit;
  /** Matched by a word that other lists use too, such as "name" or "date". */
  readonly everyday: boolean;
}

export interface HeaderMatch {
  /** The column that it means; absent when none is sure enough. */
  readonly best?: Candidate;
  /** What it might mean, best first. */
  readonly suggestions: readonly Candidate[];
  /** Why nothing was chosen although there are suggestions. */
  readonly doubt?: string;
}

interface ListHeader {
  readonly text: HeaderText;
  /** How well the cells below go with a column, 0 to 1; 1 when absent. */
  readonly fit?: (column: Column) => number;
}

/** What one way to read a header may mean: its words, its unit, and the titles above it. */
function readings({ words, unit, strength, above }: HeaderForm, index: NameIndex): Candidate[] {
  const named = words.length === 0 ? [] : [...scoresOf(words, index)];
  // "Design TPH": what is left beside the unit says only how the figure was got.
  const scores = new Map([...(telling(words).length === 0 ? unitAlone(unit, index) : []), ...named]);
  return [...scores].flatMap(([position, { score, why, everyday }]) => {
    const column = index.columns[position];
    if (column === undefined) return [];
    const suiting = unit.find((item) => unitSuits(item, column.kind));
    const foreign = unit.length > 0 && suiting === undefined;
    const elsewhere = above.some(
      (word) => index.vocabulary.has(word) && !(index.ownWords[position]?.has(word) ?? false),
    );
    const confidence = score * strength * (foreign ? 0.45 : 1) * (above.length === 0 ? 1 : elsewhere ? 0.7 : 0.98);
    const reason = foreign ? `${why}, but ${unit[0]?.symbol ?? 'its unit'} is a unit of another quantity` : why;
    return [{ column, confidence, why: reason, everyday, ...(suiting === undefined ? {} : { unit: suiting }) }];
  });
}

/** A header that is a unit and nothing more means the one input that is measured in it, where there is only one. */
function unitAlone(units: readonly Unit[], index: NameIndex): Map<number, Scored> {
  const kinds = ['power', 'speed', 'capacity'] as const;
  const fitting = index.columns.flatMap((column, position) =>
    !isComputed(column) &&
    kinds.some((kind) => kind === column.kind) &&
    units.some((unit) => unitSuits(unit, column.kind))
      ? [position]
      : [],
  );
  return new Map(
    fitting.length === 1
      ? fitting.map((position) => [position, { score: 0.8, why: 'the only column in this unit', everyday: false }])
      : [],
  );
}

/** Texts that are kept of a sheet. Ours. */
const mostKept = 2000;

/** What headers come to, kept by their texts: looking for a list's header asks for the same ones again and again. */
class KeptByText<Kept extends object> {
  readonly #sheets = new WeakMap<SheetDeclaration, Map<string, Kept>>();

  of(text: HeaderText, sheet: SheetDeclaration, find: () => Kept): Kept {
    let kept = this.#sheets.get(sheet);
    if (kept === undefined) this.#sheets.set(sheet, (kept = new Map()));
    const mark = headerMark(text);
    const known = kept.get(mark);
    if (known !== undefined) return known;
    if (kept.size >= mostKept) kept.clear();
    const found = find();
    kept.set(mark, found);
    return found;
  }
}

const exactlyNamed = new KeptByText<readonly Column[]>();
const meant = new KeptByText<readonly Candidate[]>();

/** Columns that a header names exactly, in any order and with any unit: a quick look, without doubtful names. */
export function exactColumns(text: HeaderText, sheet: SheetDeclaration): readonly Column[] {
  return exactlyNamed.of(text, sheet, () => {
    const index = nameIndex(sheet);
    return headerForms(text).flatMap(({ words }) =>
      (index.anyOrder.get(wordKey(words)) ?? []).flatMap(({ column }) => index.columns[column] ?? []),
    );
  });
}

/** The unit that a header names, of those that suit a column. */
export const unitInHeader = (text: HeaderText, column: Column): Unit | undefined =>
  headerForms(text).flatMap(({ unit }) => unit.filter((item) => unitSuits(item, column.kind)))[0];

/** All columns that a header may mean, best first. */
export function candidates(header: ListHeader, sheet: SheetDeclaration): Candidate[] {
  return byWords(header.text, sheet)
    .map((candidate) => {
      const fit = candidate.confidence < leastSuggestion ? 1 : (header.fit?.(candidate.column) ?? 1);
      // Cells that are merely odd do not outweigh the exact name; cells that are plainly something else do.
      if (fit === 1 || (fit >= 0.75 && candidate.confidence === 1)) return candidate;
      return {
        ...candidate,
        confidence: Math.min(0.99, candidate.confidence * fit),
        why:
          fit < 1
            ? `${candidate.why}, but the cells below do not match`
            : `${candidate.why}, and the cells below match`,
      };
    })
    .filter(({ confidence }) => confidence >= leastSuggestion)
    .toSorted((a, b) => b.confidence - a.confidence);
}

/** What a header may mean by its words alone. */
const byWords = (text: HeaderText, sheet: SheetDeclaration): readonly Candidate[] =>
  meant.of(text, sheet, () => meantBy(text, sheet));

function meantBy(text: HeaderText, sheet: SheetDeclaration): readonly Candidate[] {
  const index = nameIndex(sheet);
  const best = new Map<string, Candidate>();
  for (const form of headerForms(text)) {
    for (const candidate of readings(form, index)) {
      const other = best.get(candidate.column.header);
      const better =
        other === undefined ||
        candidate.confidence > other.confidence ||
        (candidate.confidence === other.confidence && other.unit === undefined && candidate.unit !== undefined);
      if (better) best.set(candidate.column.header, candidate);
    }
  }
  return [...best.values()];
}

/** Each header's column, one to one, so that the total is greatest; what is doubtful stays a suggestion. */
export function matchedHeaders(headers: readonly ListHeader[], sheet: SheetDeclaration): HeaderMatch[] {
  const found = headers.map((header) => candidates(header, sheet));
  const scores = found.map((list) => {
    const row = new Array<number>(sheet.columns.length).fill(0);
    for (const { column, confidence } of list)
      if (confidence >= leastConfidence) row[sheet.columns.indexOf(column)] = confidence;
    return row;
  });
  const pairs = bestPairs(scores);
  const confidenceOf = (header: number, column: Column): number =>
    found[header]?.find((item) => item.column === column)?.confidence ?? 0;
  return found.map((list, header): HeaderMatch => {
    const column = sheet.columns[pairs[header] ?? -1];
    const best = list.find((item) => item.column === column);
    // Figures that the book works out itself are no choice for a column of a list.
    const suggestions = list.filter((item) => !isComputed(item.column)).slice(0, 3);
    if (best === undefined) return { suggestions };
    const doubt = doubtAbout(best, header);
    return doubt === undefined ? { best, suggestions } : { suggestions, doubt };
  });

  function doubtAbout(best: Candidate, header: number): string | undefined {
    if (best.confidence >= 0.97) return undefined;
    const other = found[header]?.find(
      ({ column, confidence }) =>
        column !== best.column &&
        best.confidence - confidence < tooClose &&
        best.confidence < 0.9 &&
        !pairs.some(
          (pair, index) =>
            index !== header && sheet.columns[pair ?? -1] === column && confidenceOf(index, column) > confidence,
        ),
    );
    if (other !== undefined) return `it could be ${best.column.header} or ${other.column.header}`;
    if (best.column.kind === 'text' || best.column.kind === 'flag') return undefined;
    const rival = found.findIndex(
      (_, index) =>
        index !== header &&
        pairs[index] === undefined &&
        best.confidence - confidenceOf(index, best.column) < tooClose &&
        headers[index]?.text.own !== headers[header]?.text.own,
    );
    return rival < 0 ? undefined : `"${headers[rival]?.text.own ?? ''}" could be ${best.column.header} as well`;
  }
}
