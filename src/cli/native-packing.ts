import { promisify } from 'node:util';
import { constants, crc32, deflateRaw } from 'node:zlib';
import type { Pack } from '../xlsx/write/packing.ts';

const packed = promisify(deflateRaw);

/**
 * Packing by the library that Node brings along: several times as fast, and in threads of its own while rows are made.
 *
 * The level is measured: of the rows of 10,000 belts level 5 makes a sixth more in half of the time, 8 an eighth less
 * in five times of it.
 */
export const nativePack: Pack = async (bytes, before) => {
  const packing = packed(bytes, {
    level: 6,
    finishFlush: constants.Z_SYNC_FLUSH,
    ...(before === undefined || before.length === 0 ? {} : { dictionary: before }),
  });
  const checksum = crc32(bytes);
  // A view of a whole buffer of its own: bytes that are handed on to another thread take nothing else along.
  return { bytes: Uint8Array.from(await packing), size: bytes.length, checksum };
};
