import type { ReadLimits } from './read-limits.ts';

/** The parts of a workbook file, unpacked one at a time and never beyond what the directory declared. */
export interface BookParts {
  readonly limits: ReadLimits;
  /** A part's path as stored, whatever the case asked for; undefined when there is none. */
  find(path: string): string | undefined;
  /** Hands a part's bytes on as they are unpacked. The path must be one that `find` answered. */
  unpack(path: string, take: (bytes: Uint8Array) => void): void;
}
