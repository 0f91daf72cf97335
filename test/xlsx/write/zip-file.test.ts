import { unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { nativePack } from '../../../src/cli/native-packing.ts';
import { joinedBytes, type PackedPart, PartPieces } from '../../../src/xlsx/write/packing.ts';
import { zipFile } from '../../../src/xlsx/write/zip-file.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { packedBytes, zipDirectory } from '../../../src/xlsx/read/zip-directory.ts';

/** Archives as they are written, small and beyond 4 GB. */

async function part(...pieces: readonly Uint8Array<ArrayBuffer>[]): Promise<PackedPart> {
  const made = new PartPieces({ pack: nativePack });
  for (const piece of pieces) made.add(piece);
  return made.packed();
}

const encoded = (text: string): Uint8Array<ArrayBuffer> => Uint8Array.from(new TextEncoder().encode(text));

test('parts come out as they went in, also for who reads no directory', async () => {
  const parts = [
    { path: 'xl/a.xml', part: await part(encoded('<a/>'), encoded('<b/>')) },
    { path: 'Übersicht.xml', part: await part() },
  ];
  const bytes = joinedBytes([...zipFile(parts)]);
  const unpacked = unzipSync(bytes);
  expect(Object.entries(unpacked).map(([path, one]) => [path, new TextDecoder().decode(one)])).toEqual([
    ['xl/a.xml', '<a/><b/>'],
    ['Übersicht.xml', ''],
  ]);
  const view = new DataView(bytes.buffer);
  // Sizes stand in the first header itself, and no bit says that they follow (PKWARE APPNOTE 6.3, 4.4.4).
  expect([view.getUint16(6, true) & 8, view.getUint32(22, true)]).toEqual([0, 8]);
});

test('a part beyond 4 GB has its sizes in wide fields, and what stands behind it is found', async () => {
  const piece = await nativePack(new Uint8Array(16 * 1024 * 1024));
  const large = new PartPieces({ pack: nativePack });
  const times = 260;
  for (let time = 0; time < times; time += 1) large.addPacked(piece);
  const bytes = joinedBytes([
    ...zipFile([
      { path: 'large.xml', part: await large.packed() },
      { path: 'small.xml', part: await part(encoded('<a/>')) },
    ]),
  ]);
  const [first, second] = zipDirectory(bytes, readLimits);
  expect(first).toMatchObject({ path: 'large.xml', size: times * piece.size });
  if (first === undefined || second === undefined) throw new Error('there are two parts');
  expect(packedBytes(bytes, first).length).toBe(times * piece.bytes.length + 2);
  expect(new TextDecoder().decode(unzipSync(bytes, { filter: ({ name }) => name === 'small.xml' })['small.xml'])).toBe(
    '<a/>',
  );
  expect(packedBytes(bytes, second).length).toBe(second.packedSize);
});
