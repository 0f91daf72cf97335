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
    ENOENT: doing === 'read' ? 'there is no such file' : 'there is no such folder',
    ENOTDIR: 'a part of its path is a file, not a folder',
    EACCES: 'you have no permission: ask for access, or choose another folder',
    EPERM: 'you have no permission: ask for access, or choose another folder',
    EROFS: 'the disk is read-only',
    ENOSPC: 'the disk is full',
    EISDIR: 'it is a folder, not a file',
    EBUSY: 'another program has it open: close it there first',
    ENAMETOOLONG: 'its name is too long',
    EDQUOT: 'your share of the disk is used up',
    EFBIG: 'it would be larger than this disk allows',
    EIO: 'the disk reports an error',
    ELOOP: 'its path is a circle of links',
  };
  const reason =
    (code === 'ENOENT' ? nameFault(path) : undefined) ??
    reasons[code] ??
    (error instanceof Error ? error.message : String(error));
  return new FileError(`${path} could not be ${doing}: ${reason}.`, { cause: error });
}
