import { type Mark, onPaper, type Paper, type Point, type TextMark } from '../../src/drawing/paper.ts';
import { textWidth } from '../../src/drawing/text-width.ts';

/** Whether things on paper lie over each other, by the theorem of separating axes. */
type Corners = readonly Point[];

export function textCorners({ at, text, size, anchor, turned, bold }: TextMark): Corners {
  const width = textWidth(text, size, bold);
  const left = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  // Capitals and digits reach from the foot to 0.72 of the size, tails a fifth below.
  const [top, bottom] = [-0.38 * size, 0.5 * size];
  const turn = (turned * Math.PI) / 180;
  return [
    [left, top],
    [left + width, top],
    [left + width, bottom],
    [left, bottom],
  ].map(([x = 0, y = 0]) => ({
    x: at.x + x * Math.cos(turn) + y * Math.sin(turn),
    y: at.y - x * Math.sin(turn) + y * Math.cos(turn),
  }));
}

const axes = (corners: Corners): Point[] =>
  corners.map((corner, index) => {
    const next = corners[(index + 1) % corners.length] ?? corner;
    return { x: corner.y - next.y, y: next.x - corner.x };
  });

function span(corners: Corners, axis: Point): readonly [number, number] {
  const along = corners.map(({ x, y }) => x * axis.x + y * axis.y);
  return [Math.min(...along), Math.max(...along)];
}

const level: readonly Point[] = [
  { x: 1, y: 0 },
  { x: 0, y: 1 },
];

export const overlap = (one: Corners, other: Corners): boolean =>
  // The paper's own axes first: most pairs are far apart.
  !apart(one, other, level) && !apart(one, other, [...axes(one), ...axes(other)]);

const apart = (one: Corners, other: Corners, between: readonly Point[]): boolean =>
  between.some((axis) => {
    const [low, high] = span(one, axis);
    const [otherLow, otherHigh] = span(other, axis);
    return low >= otherHigh || otherLow >= high;
  });

export const textsOf = ({ marks }: Paper): readonly TextMark[] =>
  marks.flatMap((mark) => (mark.type === 'text' ? [mark] : []));

/** Plates and cuts of all views, as they lie on the paper. */
export const solidsOf = ({ marks }: Paper): readonly Corners[] =>
  marks.flatMap((mark: Mark) =>
    mark.type !== 'view'
      ? []
      : mark.outlines.flatMap((outline) => {
          if (outline.type === 'area' && outline.name === 'plate')
            return [outline.corners.map((corner) => onPaper(mark.matrix, corner))];
          if (outline.type === 'line' && outline.name === 'cut')
            return [outline.points.map((point) => onPaper(mark.matrix, point))];
          return [];
        }),
  );

/** Texts over each other, over a plate or the cut, or off the paper, in words. */
export function collisions(paper: Paper): string[] {
  const texts = textsOf(paper).map((mark) => ({ text: mark.text, corners: textCorners(mark) }));
  const solids = solidsOf(paper);
  return texts.flatMap(({ text, corners }, index) => [
    ...texts
      .slice(index + 1)
      .filter((other) => overlap(corners, other.corners))
      .map((other) => `"${text}" over "${other.text}"`),
    ...(solids.some((solid) => overlap(corners, solid)) ? [`"${text}" over a plate or the cut`] : []),
    ...(corners.some(({ x, y }) => x < -0.01 || y < -0.01 || x > paper.width + 0.01 || y > paper.height + 0.01)
      ? [`"${text}" off the paper`]
      : []),
  ]);
}
