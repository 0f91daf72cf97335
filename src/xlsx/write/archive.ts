import { zipSync } from 'fflate';

/** A file of several, by its name. */
interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Files in one archive (.zip), for browsers that take one file at a time. */
export const archive = (files: readonly NamedFile[], stamp: Date): Uint8Array =>
  zipSync(Object.fromEntries(files.map(({ name, bytes }) => [name, bytes])), { level: 6, mtime: stamp });
