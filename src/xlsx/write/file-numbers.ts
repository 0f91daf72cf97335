import type { Style, Workbook as FileBook } from 'exceljs';
import type { OwnLook } from '../../workbook/own-look.ts';
import { type CellRole, cellStyle, lookKey } from './cell-styles.ts';

/**
 * Looks and texts that a file says once, in parts of their own, and its cells refer to by number.
 *
 * Source: ECMA-376 Part 1, 18.8.10 (cellXfs), 18.4.9 (sst).
 */
export interface FileNumbers {
  look(role: CellRole, format: string, own?: OwnLook): number;
  /** Undefined for a text that stands in its cell. */
  text(text: string): number | undefined;
}

/** A look by what the program says of it. */
export type LookAsked = readonly [role: CellRole, format: string, own?: OwnLook];

/** The numbers that a file had given when a thread was told of them. */
export interface GivenNumbers {
  readonly looks: ReadonlyMap<string, number>;
  readonly texts: ReadonlyMap<string, number>;
}

interface Tables {
  readonly styles: { addStyleModel(style: Partial<Style>): number };
  readonly sharedStrings: { readonly values: readonly unknown[]; add(text: string): number };
}

interface Preparing {
  prepareModel(model: object, options: object): void;
}

/**
 * The tables of the spreadsheet library, there before it writes: it makes new ones whenever it does, and is handed
 * these in their place. So what a cell looks like is said once for its rows and for ours.
 */
function tablesOf(file: FileBook): Tables {
  const made = { ...Object.assign({}, file.model), worksheets: [] } as unknown as Tables;
  (file.xlsx as unknown as Preparing).prepareModel(made, {});
  const { styles, sharedStrings } = made;
  Object.defineProperty(file, 'model', {
    configurable: true,
    get(): object {
      const model = Reflect.get(Object.getPrototypeOf(file) as object, 'model', file) as object;
      const kept = (table: unknown) => ({
        configurable: true,
        enumerable: true,
        get: () => table,
        set: () => undefined,
      });
      return Object.defineProperties(model, { styles: kept(styles), sharedStrings: kept(sharedStrings) });
    },
  });
  return { styles, sharedStrings };
}

/** Texts that a file says once. They stay in memory until it is written, so all others stand in their cells. Ours. */
const mostTexts = 100_000;

/** The numbers of a file that is being written here. */
export class OwnNumbers implements FileNumbers {
  readonly #tables: Tables;
  readonly #looks = new Map<string, number>();
  readonly #texts = new Set<string>();

  constructor(file: FileBook) {
    this.#tables = tablesOf(file);
  }

  look(role: CellRole, format: string, own?: OwnLook): number {
    const key = lookKey(role, format, own);
    let number = this.#looks.get(key);
    if (number === undefined)
      this.#looks.set(key, (number = this.#tables.styles.addStyleModel(cellStyle(role, format, own))));
    return number;
  }

  text(text: string): number | undefined {
    if (!this.#texts.has(text)) {
      if (this.#texts.size === mostTexts) return undefined;
      this.#texts.add(text);
    }
    return this.#tables.sharedStrings.add(text);
  }

  /** What threads may refer to. */
  given(): GivenNumbers {
    const texts = this.#tables.sharedStrings.values.flatMap((text, number): [string, number][] =>
      typeof text === 'string' ? [[text, number]] : [],
    );
    return { looks: new Map(this.#looks), texts: new Map(texts) };
  }
}

/** The numbers of a file that another thread writes: a new text stands in its cell, a new look has to be asked for. */
export class LentNumbers implements FileNumbers {
  readonly #looks: Map<string, number>;
  readonly #texts: ReadonlyMap<string, number>;
  #wanted = new Map<string, LookAsked>();

  constructor({ looks, texts }: GivenNumbers) {
    this.#looks = new Map(looks);
    this.#texts = texts;
  }

  look(role: CellRole, format: string, own?: OwnLook): number {
    const key = lookKey(role, format, own);
    const number = this.#looks.get(key);
    if (number === undefined) this.#wanted.set(key, own === undefined ? [role, format] : [role, format, own]);
    return number ?? 0;
  }

  text(text: string): number | undefined {
    return this.#texts.get(text);
  }

  /** Looks that were needed and had no number; asked once. */
  wanted(): LookAsked[] {
    const wanted = [...this.#wanted.values()];
    this.#wanted = new Map();
    return wanted;
  }

  learn(asked: readonly LookAsked[], numbers: readonly number[]): void {
    asked.forEach((look, index) => void this.#looks.set(lookKey(...look), numbers[index] ?? 0));
  }
}
