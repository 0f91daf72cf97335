import { promisify } from 'node:util';
import { constants, deflateRaw } from 'node:zlib';
import type { Pack } from '../xlsx/write/packing.ts';

const packed = promisify(deflateRaw);

/**
 * Packing by the library that Node brings along: several times as fast, and in threads of its own while rows are made.
 *
 * The level is measured: of the rows of 10,000 belts level 6 makes a third less than 5 in half more of the time, 8 a
 * third less than that in twice the time.
 */
export const nativePack: Pack = async (bytes) =>
  // A view of a whole buffer of its own: bytes that are handed on to another thread take nothing else along.
  Uint8Array.from(await packed(bytes, { level: 6, finishFlush: constants.Z_SYNC_FLUSH }));
