import { counted } from '../../units/phrases.ts';
import { escaped } from '../../sheet/words.ts';
import type { RollPlan } from './cutting-plan.ts';

/** A cutting plan as pictures. */

interface PictureWords {
  /** A length as the reader's units have it. */
  readonly length: (length: number) => string;
}

const short = (number: number): string => String(Math.round(number * 100) / 100);

const width = 720;
const bar = { top: 22, height: 56 };
const textSize = 11;
const lineHeight = 1.15 * textSize;
/** Room for a letter of the text, wide enough for most. */
const letter = 0.6 * textSize;

/** Slanting lines over a box, as one path: no pattern, whose name two pictures on a page would share. */
function hatching(x: number, room: number): string {
  const lines: string[] = [];
  for (let slant = 5; slant < room + bar.height; slant += 5) {
    const from = [x + Math.max(0, slant - bar.height), bar.top + Math.min(slant, bar.height)] as const;
    const to = [x + Math.min(slant, room), bar.top + Math.max(0, slant - room)] as const;
    lines.push(`M${short(from[0])} ${short(from[1])}L${short(to[0])} ${short(to[1])}`);
  }
  return `<path d="${lines.join('')}" stroke="currentColor" stroke-width="0.7" fill="none"/>`;
}

const written = (text: string, place: string, anchor = 'middle'): string =>
  `<text ${place} text-anchor="${anchor}" font-size="${textSize}" fill="currentColor">${escaped(text)}</text>`;

/** Lines of text in the middle of a box: side by side, else turned, else as many turned lines as there is room for. */
function labels(x: number, room: number, lines: readonly string[]): string {
  const middle = x + room / 2;
  const centre = bar.top + bar.height / 2;
  const down = (place: number, of: number): number => (place - (of - 1) / 2) * lineHeight + 0.36 * textSize;
  if (lines.every((line) => line.length * letter <= room - 4)) {
    return lines
      .map((line, place) => written(line, `x="${short(middle)}" y="${short(centre + down(place, lines.length))}"`))
      .join('');
  }
  const turned = lines
    .filter((line) => line.length * letter <= bar.height)
    .slice(0, Math.floor((room - 2) / lineHeight));
  return turned
    .map((line, place) =>
      written(
        line,
        `transform="translate(${short(middle + down(place, turned.length))} ${short(centre)}) rotate(-90)"`,
      ),
    )
    .join('');
}

/**
 * One roll as a bar: its cuts with belt and length, a kept offcut dashed, waste hatched.
 *
 * Drawn in the colour of the text around it, so it stands on light and dark ground and in black print; nothing is told
 * by colour alone. `scale` is the length that the whole width stands for: the longest roll's, to compare rolls by eye.
 * Text that does not fit its piece is turned or left out; the title of the piece tells it.
 */
export function rollPicture(roll: RollPlan, words: PictureWords, scale = roll.length): string {
  const across = (length: number): number => (length / scale) * width;
  const cuts = roll.cuts.map(({ belt, length, from }) => {
    const [x, room] = [across(from), across(length)];
    return [
      `<g><title>${escaped(`${belt}: ${words.length(length)}`)}</title>`,
      `<rect x="${short(x)}" y="${bar.top}" width="${short(room)}" height="${bar.height}" fill="none" ` +
        `stroke="currentColor"/>`,
      labels(x, room, [belt, words.length(length)]),
      '</g>',
    ].join('');
  });
  const rest = across(roll.length - roll.offcut);
  const offcut =
    roll.offcut <= 0
      ? ''
      : [
          `<g><title>${roll.kept ? 'offcut, kept' : 'waste'}: ${escaped(words.length(roll.offcut))}</title>`,
          `<rect x="${short(rest)}" y="${bar.top}" width="${short(across(roll.offcut))}" height="${bar.height}" ` +
            `fill="none" stroke="currentColor"${roll.kept ? ' stroke-dasharray="4 3"' : ''}/>`,
          roll.kept
            ? labels(rest, across(roll.offcut), ['kept', words.length(roll.offcut)])
            : hatching(rest, across(roll.offcut)),
          '</g>',
        ].join('');
  const title =
    `${roll.name}, ${words.length(roll.length)}, ` +
    `${roll.source === 'shelf' ? 'from the shelf' : roll.source}: ${counted(roll.cuts.length, 'piece')}, ` +
    `${roll.kept ? 'offcut kept' : 'offcut'} ` +
    `${words.length(roll.offcut)}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="roll" viewBox="-1 0 ${width + 2} ${bar.top + bar.height + 4}" ` +
      `width="100%" role="img" aria-label="${escaped(title)}" font-family="sans-serif">`,
    `<title>${escaped(title)}</title>`,
    written(title, `x="0" y="${bar.top - 8}"`, 'start'),
    ...cuts,
    offcut,
    '</svg>',
  ].join('');
}
