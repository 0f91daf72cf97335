import { inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { PackedStream } from '../../../src/xlsx/write/stream-packing.ts';
import { nativePack } from '../../../src/cli/native-packing.ts';
import { checksum, joinedChecksum } from '../../../src/xlsx/checksum.ts';
import { joinedBytes, type Pack, PartPieces } from '../../../src/xlsx/write/packing.ts';

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

test('pieces come out as they went in, in whatever order they were packed', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(bytes, { maxLength: 4 }), fc.array(bytes, { maxLength: 4 }), async (first, later) => {
      // The first pieces are packed last.
      let wait = 8;
      const slowly: Pack = async (piece, before) => {
        await new Promise((done) => setTimeout(done, (wait -= 1)));
        return nativePack(piece, before);
      };
      for (const packing of [{ pack: slowly }, {}, { streamsFrom: 1_000 }]) {
        const [head, rows] = [new PartPieces(packing), new PartPieces(packing)];
        for (const one of later) {
          rows.add(Uint8Array.from(one));
          await rows.room();
        }
        for (const one of first) head.add(Uint8Array.from(one));
        await head.append(rows);
        if ('pack' in packing) head.addPacked(await nativePack(Uint8Array.of(59)));
        else head.add(Uint8Array.of(59));
        head.add(Uint8Array.of(60));
        const { pieces, size, packedSize, checksum: sum } = await head.packed();
        const whole = joinedBytes([...first, ...later, Uint8Array.of(59, 60)]);
        const packed = joinedBytes([...pieces()]);
        expect(inflateRawSync(packed).equals(whole)).toBe(true);
        expect([size, packedSize, sum]).toEqual([whole.length, packed.length, checksum(whole)]);
      }
    }),
    { numRuns: 15 },
  );
});

test('no more pieces wait than there is room for, and what goes wrong with one is told', async () => {
  let [waiting, most] = [0, 0];
  const counted: Pack = async (piece) => {
    most = Math.max(most, (waiting += 1));
    const packed = await nativePack(piece);
    waiting -= 1;
    return packed;
  };
  const part = new PartPieces({ pack: counted });
  for (let piece = 0; piece < 20; piece += 1) {
    part.add(Uint8Array.of(piece));
    await part.room(2);
  }
  expect(most).toBe(3);
  part.add(Uint8Array.of(1));
  const broken = new PartPieces({ pack: () => Promise.reject(new Error('no memory')) });
  broken.add(Uint8Array.of(1));
  await expect(broken.packed()).rejects.toThrow('no memory');
});

test('rows that come faster than a browser packs them wait where they are made, not in its memory', async () => {
  let [waiting, most] = [0, 0];
  // As browsers and Node have it: what waits is counted in pieces, of which many may.
  class SlowStream extends TransformStream<Uint8Array, Uint8Array> {
    constructor() {
      super(
        {
          async transform(_piece, controller) {
            await new Promise((done) => setTimeout(done, 1));
            waiting -= 1;
            controller.enqueue(Uint8Array.of(1));
          },
        },
        new CountQueuingStrategy({ highWaterMark: 1_000 }),
      );
    }
  }
  vi.stubGlobal('CompressionStream', SlowStream);
  try {
    const stream = new PackedStream();
    for (let piece = 0; piece < 20; piece += 1) {
      waiting += 1;
      stream.add(new Uint8Array(10));
      most = Math.max(most, waiting);
      await stream.room();
    }
    expect((await stream.ended()).length).toBe(20);
    expect(most).toBe(1);
  } finally {
    vi.unstubAllGlobals();
  }
});
