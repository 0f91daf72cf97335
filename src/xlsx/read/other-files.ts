import { wideForm } from './delimited-text.ts';
import { UnreadableFile, type UnreadableReason } from './unreadable-file.ts';
import type { ZipEntry } from './zip-directory.ts';
import type { BookParts } from './zip-parts.ts';

/** Files that are not .xlsx, told apart so that the message can say what this one is and what to do with it. */

const openAndSave = 'Open it in your spreadsheet program and save it as .xlsx (Excel workbook).';
const notAZip = (what: string, cure = openAndSave): UnreadableFile =>
  new UnreadableFile('not a zip', `The file is not an .xlsx workbook: ${what}. ${cure}`);

const startsWith = (bytes: Uint8Array, ...start: readonly number[]): boolean =>
  start.every((byte, index) => bytes[index] === byte);

/** Whether the text stands somewhere in the bytes with two bytes a letter, as compound files write names. */
function holdsWideText(bytes: Uint8Array, text: string): boolean {
  const codes = [...text].flatMap((letter) => [letter.charCodeAt(0), 0]);
  const [first = 0] = codes;
  for (let at = bytes.indexOf(first); at >= 0; at = bytes.indexOf(first, at + 1)) {
    if (codes.every((code, index) => bytes[at + index] === code)) return true;
  }
  return false;
}

/**
 * Compound files: workbooks of before 2007, and today's when a password encrypts them. Source: [MS-CFB] 2.2,
 * [MS-OFFCRYPTO] 1.3.
 */
function compoundFile(bytes: Uint8Array): UnreadableFile {
  if (holdsWideText(bytes, 'EncryptedPackage')) {
    return new UnreadableFile(
      'password',
      'The file is protected by a password, so nothing in it can be read. ' +
        'Open it in your spreadsheet program, remove the password, and save a copy as .xlsx.',
    );
  }
  return new UnreadableFile(
    'old xls',
    'The file is an old .xls workbook (or another document of the same age, ' +
      `or one with a password), whatever its name ends with. ${openAndSave}`,
  );
}

function textFile(start: string): UnreadableFile | undefined {
  const head = start.toLowerCase();
  if (head.includes('urn:schemas-microsoft-com:office:spreadsheet')) return notAZip('it is an XML spreadsheet of 2003');
  if (head.includes('urn:oasis:names:tc:opendocument')) return notAZip('it is a flat OpenDocument file (.fods)');
  if (/<(?:!doctype\s+)?html|<table/.test(head))
    return notAZip('it is a web page, which some programs save under the name .xls');
  if (head.trimStart().startsWith('<?xml')) return notAZip('it is an XML file');
  if (head.startsWith('%pdf')) return notAZip('it is a PDF document', 'Ask for the workbook it was printed from.');
  return undefined;
}

/** What the file is when it is neither an archive nor plain text; undefined when it may be one of these. */
export function otherFile(bytes: Uint8Array): UnreadableFile | undefined {
  if (startsWith(bytes, 0x50, 0x4b)) return undefined;
  if (startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0)) return compoundFile(bytes);
  if (bytes[0] === 9 && [0, 2, 4, 8].includes(bytes[1] ?? -1)) {
    return new UnreadableFile(
      'old xls',
      `The file is a very old .xls workbook, whatever its name ends with. ${openAndSave}`,
    );
  }
  if (
    startsWith(bytes, 0x1f, 0x8b) ||
    startsWith(bytes, 0x37, 0x7a, 0xbc, 0xaf) ||
    startsWith(bytes, 0x52, 0x61, 0x72, 0x21)
  ) {
    return notAZip('it is a compressed archive of another kind', 'Unpack it and choose the workbook inside.');
  }
  const start = bytes.subarray(0, 4096);
  if (start.every((byte) => byte === 0))
    return notAZip(
      'it begins with nothing but zero bytes',
      'It was not copied or synchronised completely: copy or download it again.',
    );
  const wide = wideForm(bytes);
  if (wide !== undefined) return textFile(new TextDecoder(wide).decode(start));
  if (startsWith(bytes, 0x25, 0x50, 0x44, 0x46) || start.every((byte) => byte >= 32 || (byte >= 9 && byte <= 13)))
    return textFile(new TextDecoder().decode(start));
  return notAZip(
    'its beginning is not that of a workbook. It may be an old .xls, a .csv or other text, an .ods or .xlsb under a ' +
      'wrong name, ' +
      'or damaged',
  );
}

function firstBytes(parts: BookParts, path: string): string {
  let text = '';
  const decoder = new TextDecoder();
  parts.unpack(path, (bytes) => {
    if (text.length < 200) text += decoder.decode(bytes.subarray(0, 200));
  });
  return text;
}

/** What the archive is when it is not a workbook of ECMA-376; undefined when it may be one. */
export function otherPackage(parts: BookParts, entries: readonly ZipEntry[]): UnreadableFile | undefined {
  if (parts.find('_rels/.rels') !== undefined) return undefined;
  const refusal = (reason: UnreadableReason, what: string, cure = openAndSave): UnreadableFile =>
    new UnreadableFile(reason, `The file is not an .xlsx workbook: ${what}. ${cure}`);
  const type = parts.find('mimetype');
  if (type !== undefined && firstBytes(parts, type).includes('opendocument')) {
    return firstBytes(parts, type).includes('spreadsheet')
      ? undefined
      : refusal(
          'opendocument',
          'it is an OpenDocument file without a spreadsheet',
          'Choose the workbook that holds the list of belts.',
        );
  }
  const inner = entries.find((entry) => /\.(?:xlsx|xlsm|xls|ods|csv)$/i.test(entry.path));
  if (inner)
    return refusal(
      'not a workbook',
      `it is a zip archive that holds ${inner.path}`,
      'Unpack it and choose the workbook inside.',
    );
  if (entries.some((entry) => entry.path.toLowerCase().endsWith('.iwa')))
    return refusal(
      'not a workbook',
      'it is a document of a spreadsheet program that keeps .iwa parts',
      'Export it from there as .xlsx.',
    );
  return refusal(
    'not a workbook',
    'it is a zip archive without the part _rels/.rels, which names the workbook part',
    openAndSave,
  );
}
