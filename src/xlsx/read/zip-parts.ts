import type { ReadLimits } from './read-limits.ts';

/** The parts of a workbook file, unpacked one at a time and never beyond what the directory declared. */
export interface BookParts {
  readonly limits: ReadLimits;
  /** A part's path as stored, whatever the case asked for; undefined when there is none. */
  find(path: string): string | undefined;
  /** Hands a part's bytes on as they are unpacked. The path must be one that `find` answered. */
  unpack(path: string, take: (bytes: Uint8Array) => void): void;
}

/** Parts of an archive that can also be taken piece by piece, as fast as they are used. */
export interface PieceParts extends BookParts {
  /** Bytes of a part as the directory declares them; 0 where there is none. */
  size(path: string): number;
  /** A part's bytes as they are unpacked. The path must be one that `find` answered. */
  pieces(path: string): Iterable<Uint8Array>;
}
