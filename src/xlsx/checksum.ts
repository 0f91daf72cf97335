const polynomial = 0xedb88320;

/** Tables for four bytes at a time: table n is a byte's effect n bytes further on. */
const tables = ((): readonly Uint32Array[] => {
  const first = new Uint32Array(256);
  for (let byte = 0; byte < 256; byte++) {
    let rest = byte;
    for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? polynomial ^ (rest >>> 1) : rest >>> 1;
    first[byte] = rest >>> 0;
  }
  const all = [first];
  for (let shift = 1; shift < 4; shift++) {
    const before = all[shift - 1] ?? first;
    all.push(before.map((value) => (first[value & 255] ?? 0) ^ (value >>> 8)));
  }
  return all;
})();

/**
 * CRC-32 of a stream of bytes, as archives carry it; start with 0 and pass each answer on.
 *
 * Source: PKWARE APPNOTE 6.3, section 4.4.7; four bytes at a time is the usual "slicing" form of it.
 */
export function checksum(bytes: Uint8Array, before = 0): number {
  const [one, two, three, four] = tables as [Uint32Array, Uint32Array, Uint32Array, Uint32Array];
  let rest = ~before;
  let at = 0;
  const whole = bytes.length - 3;
  for (; at < whole; at += 4) {
    rest ^=
      (bytes[at] as number) |
      ((bytes[at + 1] as number) << 8) |
      ((bytes[at + 2] as number) << 16) |
      ((bytes[at + 3] as number) << 24);
    rest =
      (four[rest & 255] as number) ^
      (three[(rest >>> 8) & 255] as number) ^
      (two[(rest >>> 16) & 255] as number) ^
      (one[rest >>> 24] as number);
  }
  for (; at < bytes.length; at++) rest = (one[(rest ^ (bytes[at] as number)) & 255] as number) ^ (rest >>> 8);
  return ~rest >>> 0;
}

/** The product of two polynomials over the field of two elements, modulo the checksum's; bits stand reversed. */
function product(one: number, other: number): number {
  let sum = 0;
  let shifted = other;
  for (let bit = 31; bit >= 0; bit -= 1) {
    if ((one >>> bit) & 1) sum ^= shifted;
    shifted = shifted & 1 ? polynomial ^ (shifted >>> 1) : shifted >>> 1;
  }
  return sum >>> 0;
}

/**
 * The checksum of bytes that stand behind others, from the checksums of both and how many the later ones are: the
 * earlier checksum times x to the power of eight times that, plus the later one.
 */
export function joinedChecksum(before: number, after: number, bytes: number): number {
  // In reversed bits 1 is the highest, and x^8 the 24th.
  let power = 0x00800000;
  let shift = 0x80000000;
  for (let rest = bytes; rest > 0; rest = Math.floor(rest / 2)) {
    if (rest % 2 === 1) shift = product(shift, power);
    power = product(power, power);
  }
  return (product(shift, before) ^ after) >>> 0;
}
