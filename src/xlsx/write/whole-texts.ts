import JSZip from 'jszip';

/**
 * The archive library under the spreadsheet library turns a text into bytes piece by piece, and where a piece ends
 * between the two halves of a character beyond the first 65,536, both halves are lost. So it is given bytes.
 */
const encoder = new TextEncoder();
// Its overloads say more than is needed to hand arguments on.
const plainFile = Reflect.get(JSZip.prototype, 'file') as (...given: unknown[]) => unknown;

const isBase64 = (options: unknown): boolean =>
  typeof options === 'object' && options !== null && 'base64' in options && options.base64 === true;

Object.defineProperty(JSZip.prototype, 'file', {
  configurable: true,
  writable: true,
  value(this: JSZip, ...given: unknown[]): unknown {
    const [name, content, options] = given;
    const whole = typeof content === 'string' && !isBase64(options) ? [name, encoder.encode(content), options] : given;
    return Reflect.apply(plainFile, this, whole);
  },
});
