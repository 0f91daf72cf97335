import { bookType } from '../downloading.ts';

/**
 * Files on disk that a page may open and write again, in browsers that have the File System Access API. Source: WICG,
 * File System Access; WHATWG, File System.
 */
export interface DiskFile extends FileSystemFileHandle {
  queryPermission?(asked: { readonly mode: 'read' | 'readwrite' }): Promise<PermissionState>;
  requestPermission?(asked: { readonly mode: 'read' | 'readwrite' }): Promise<PermissionState>;
}

interface PickerOptions {
  readonly suggestedName?: string;
  readonly types: readonly { readonly description: string; readonly accept: Readonly<Record<string, string[]>> }[];
}

interface FilePickers {
  readonly showOpenFilePicker?: (options: PickerOptions) => Promise<DiskFile[]>;
  readonly showSaveFilePicker?: (options: PickerOptions) => Promise<DiskFile>;
}

const pickers = (): FilePickers => window as FilePickers;

const types = [{ description: 'Workbook', accept: { [bookType]: ['.xlsx'] } }];

export const canOpenOnDisk = (): boolean => pickers().showOpenFilePicker !== undefined;
export const canSaveOnDisk = (): boolean => pickers().showSaveFilePicker !== undefined;

/** What the user chose; undefined when the choice was left. */
async function chosen<Result>(choice: Promise<Result> | undefined): Promise<Result | undefined> {
  try {
    return await choice;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
}

export const openedOnDisk = async (): Promise<DiskFile | undefined> =>
  (await chosen(pickers().showOpenFilePicker?.({ types })))?.[0];

export const placeOnDisk = (name: string): Promise<DiskFile | undefined> =>
  chosen(pickers().showSaveFilePicker?.({ suggestedName: name, types }));

/** Whether the page may write the file; asks when the browser wants it to. */
export async function mayWrite(file: DiskFile): Promise<boolean> {
  const mode = { mode: 'readwrite' } as const;
  if (file.queryPermission === undefined || (await file.queryPermission(mode)) === 'granted') return true;
  return (await file.requestPermission?.(mode)) === 'granted';
}

/** The bytes of a file; undefined when there is none any more. */
export async function bytesOnDisk(file: DiskFile): Promise<Uint8Array<ArrayBuffer> | undefined> {
  try {
    return new Uint8Array(await (await file.getFile()).arrayBuffer());
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NotFoundError') return undefined;
    throw error;
  }
}

/** Writes a file whole or not at all: the browser puts a copy in its place when that is complete. */
export async function writeOnDisk(file: DiskFile, written: Blob): Promise<void> {
  const writing = await file.createWritable();
  try {
    await writing.write(written);
  } catch (error) {
    await writing.abort().catch(() => undefined);
    throw error;
  }
  await writing.close();
}
