import { FileError } from './usage-error.ts';

/**
 * Why a file of this name can't be found or made, when its name is to blame: bytes of a name that are no UTF-8 have
 * come here as U+FFFD, which is another name.
 */
export const nameFault = (path: string): string | undefined =>
  path.includes('\uFFFD')
    ? "its name's bytes are not UTF-8: give it another name, or name it through a link"
    : undefined;

/** What went wrong with a file, in words, with its name. */
export function fileFault(path: string, doing: 'read' | 'written', error: unknown): FileError {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const reasons: Readonly<Record<string, string>> = {
    ENOENT: doing === 'read' ? 'there is no such file' : 'there is no such folder to write it in',
    ENOTDIR: 'a part of its path is a file, not a folder',
    EACCES: `it may not be ${doing} by you: ask for the right to, or choose another place`,
    EPERM: `it may not be ${doing} by you: ask for the right to, or choose another place`,
    EROFS: 'the disk can only be read',
    ENOSPC: 'the disk is full',
    EISDIR: 'it is a folder, not a file',
    EBUSY: 'another program holds it open: close it there first',
    ENAMETOOLONG: 'its name is too long',
    EDQUOT: 'your share of the disk is used up',
    EFBIG: 'it would be larger than a file may be here',
    EIO: 'the disk does not answer as it should',
    ELOOP: 'its path is a circle of links',
  };
  const reason =
    (code === 'ENOENT' ? nameFault(path) : undefined) ??
    reasons[code] ??
    (error instanceof Error ? error.message : String(error));
  return new FileError(`${path} could not be ${doing}: ${reason}.`, { cause: error });
}
