import { SaxesParser } from 'saxes';
import { grouped } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import type { BookParts } from './zip-parts.ts';

export type Attributes = Readonly<Record<string, string | undefined>>;

/**
 * What reads a part's elements.
 *
 * Names come without the prefix of the part's root; an element of any other prefix has an empty name. The root's depth
 * is 1. Text arrives in pieces, those of CDATA included.
 */
export interface ElementReader {
  open(name: string, attributes: Attributes, depth: number): void;
  close?(name: string, depth: number): void;
  text?(text: string): void;
  /** Where it stands, to find the fault by: "sheet "Belts", row 12". */
  place?(): string;
}

/** Bytes before the encoding is decided: a byte order mark and an XML declaration fit. */
const headLength = 256;

/**
 * The part's encoding: by byte order mark, by the zero bytes of "<?", or by the XML declaration.
 *
 * Source: XML 1.0, appendix F. Parts are to be UTF-8 or UTF-16 (ECMA-376 Part 2, 6.2.5); others are read if known.
 */
function encodingOf(head: Uint8Array, path: string): TextDecoder {
  const [first, second] = head;
  let label = 'utf-8';
  if ((first === 0xff && second === 0xfe) || (first === 0x3c && second === 0)) label = 'utf-16le';
  else if ((first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c)) label = 'utf-16be';
  else label = /^[^<]{0,3}<\?xml[^>]*?\sencoding\s*=\s*["']([^"']+)/.exec(String.fromCharCode(...head))?.[1] ?? label;
  try {
    return new TextDecoder(/^utf-?16$/i.test(label) ? 'utf-8' : label, { fatal: true });
  } catch {
    throw new UnreadableFile(
      'unknown encoding',
      `Part ${path} is written in the text encoding "${label}"; UTF-8 and UTF-16 are read. ${saveAgain}`,
    );
  }
}

/** Turns a part's bytes into text as they come, whatever its encoding. */
function textOf(path: string, take: (text: string) => void): { bytes(bytes: Uint8Array): void; end(): void } {
  let decoder: TextDecoder | undefined;
  let head = new Uint8Array(0);
  const decode = (bytes: Uint8Array, stream: boolean): void => {
    let text: string;
    decoder ??= encodingOf(bytes.subarray(0, headLength), path);
    try {
      text = decoder.decode(bytes, { stream });
    } catch {
      throw new UnreadableFile(
        'unknown encoding',
        `Part ${path} holds bytes that are not ${decoder.encoding.toUpperCase()} text. ${saveAgain}`,
      );
    }
    if (text !== '') take(text);
  };
  return {
    bytes(bytes) {
      if (decoder) return decode(bytes, true);
      const joined = new Uint8Array(head.length + bytes.length);
      joined.set(head);
      joined.set(bytes, head.length);
      head = joined;
      if (head.length >= headLength) decode(head, true);
    },
    end() {
      decode(decoder ? new Uint8Array(0) : head, false);
    },
  };
}

type Parser = SaxesParser<{ xmlns: false; position: true }>;

/**
 * How elements are called: without the root's prefix, or as written, where one part holds elements of several
 * vocabularies.
 */
type ElementNames = 'own names' | 'whole names';

/** Hands a parser's elements on, nested no deeper than is read. */
function listen(
  parser: Parser,
  reader: ElementReader,
  elementDepth: number,
  names: ElementNames,
  where: () => string,
): void {
  let depth = 0;
  let prefix = '';
  const local = (name: string): string => {
    if (prefix === '' || names === 'whole names') return name;
    return name.startsWith(prefix) ? name.slice(prefix.length) : '';
  };
  parser.on('opentag', (tag) => {
    depth++;
    if (depth > elementDepth) {
      throw new UnreadableFile(
        'malformed xml',
        `Elements are nested more than ${elementDepth} deep in ${where()}; ` +
          `workbook files need fewer than 20. ${saveAgain}`,
      );
    }
    if (depth === 1) prefix = tag.name.slice(0, tag.name.indexOf(':') + 1);
    reader.open(local(tag.name), tag.attributes, depth);
  });
  parser.on('closetag', (tag) => {
    reader.close?.(local(tag.name), depth);
    depth--;
  });
}

/** Refuses what is no part of a workbook. */
function refuse(parser: Parser, where: () => string): void {
  parser.on('error', (error) => {
    const fault = error.message
      .replace(/^(?:\d+:\d+: )?/, '')
      .replace(/\.$/, '')
      .replace('undefined entity', 'it names an entity that it does not define');
    throw new UnreadableFile(
      'malformed xml',
      `The file is damaged or was written wrongly: ${where()} is not well-formed XML (${fault}). ${saveAgain}`,
    );
  });
  parser.on('doctype', () => {
    throw new UnreadableFile(
      'document type',
      `The file declares a document type in ${where()}; ` +
        `workbook files have none, and files made to exhaust memory may. ${saveAgain}`,
    );
  });
}

/**
 * Reads a part element by element while it is unpacked.
 *
 * Nothing of it is kept here: one tag or text is bounded, nesting is bounded, and document types, with which a small
 * file can name a huge text, are refused whole.
 */
export function readPart(
  parts: BookParts,
  path: string,
  reader: ElementReader,
  names: ElementNames = 'own names',
): void {
  const { elementDepth, unbrokenCharacters } = parts.limits;
  const parser: Parser = new SaxesParser<{ xmlns: false; position: true }>({ xmlns: false, position: true });
  const where = (): string => {
    const place = reader.place?.() ?? '';
    return (
      `part ${path}, line ${grouped(parser.line)}, character ` +
      `${grouped(parser.column)}${place === '' ? '' : ` (${place})`}`
    );
  };
  /** Characters since the last tag or text ended. */
  let unbroken = 0;
  const counted: ElementReader = {
    open(name, attributes, depth) {
      unbroken = 0;
      reader.open(name, attributes, depth);
    },
    close(name, depth) {
      unbroken = 0;
      reader.close?.(name, depth);
    },
  };
  refuse(parser, where);
  listen(parser, counted, elementDepth, names, where);
  const text = (piece: string): void => {
    unbroken = 0;
    reader.text?.(piece);
  };
  parser.on('text', text);
  parser.on('cdata', text);
  parser.on('comment', () => {
    unbroken = 0;
  });
  const source = textOf(path, (piece) => {
    unbroken += piece.length;
    if (unbroken > unbrokenCharacters) {
      throw new UnreadableFile(
        'text too long',
        `One text or tag is longer than ${grouped(unbrokenCharacters)} characters in ${where()}; ` +
          `a cell holds at most 32,767. ${saveAgain}`,
      );
    }
    parser.write(piece);
  });
  parts.unpack(path, (bytes) => source.bytes(bytes));
  source.end();
  parser.close();
}
