import { inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nativePack } from '../../../src/cli/native-packing.ts';
import { checksum, joinedChecksum } from '../../../src/xlsx/checksum.ts';
import { joinedBytes, lastBlock, PartPieces } from '../../../src/xlsx/write/packing.ts';

/** Parts of an archive, packed piece by piece. */

const bytes = fc.oneof(
  fc.uint8Array({ maxLength: 300 }),
  fc.tuple(fc.uint8Array({ minLength: 1, maxLength: 9 }), fc.nat(40_000)).map(([piece, times]) => {
    const repeated = new Uint8Array(piece.length * times);
    for (let at = 0; at < repeated.length; at += 1) repeated[at] = piece[at % piece.length] ?? 0;
    return repeated;
  }),
);

test('the checksum of bytes behind others follows from those of both', () => {
  // The check value of CRC-32 (catalogue of parametrised CRC algorithms: "123456789").
  const [before, after] = [new TextEncoder().encode('1234'), new TextEncoder().encode('56789')];
  expect(joinedChecksum(checksum(before), checksum(after), after.length)).toBe(0xcbf43926);
  fc.assert(
    fc.property(bytes, bytes, (one, other) =>
      Object.is(joinedChecksum(checksum(one), checksum(other), other.length), checksum(joinedBytes([one, other]))),
    ),
    { numRuns: 40 },
  );
});

test('pieces come out as they went in, in whatever order they were packed', () => {
  fc.assert(
    fc.property(fc.array(bytes, { maxLength: 4 }), fc.array(bytes, { maxLength: 4 }), (first, later) => {
      const [head, rows] = [new PartPieces(nativePack), new PartPieces(nativePack)];
      for (const one of later) rows.add(one);
      for (const one of first) head.add(one);
      head.append(rows);
      const whole = joinedBytes([...first, ...later]);
      expect(new Uint8Array(inflateRawSync(joinedBytes([...head.pieces, lastBlock])))).toEqual(whole);
      expect(head.size).toBe(whole.length);
      expect(head.checksum).toBe(checksum(whole));
    }),
    { numRuns: 15 },
  );
});
