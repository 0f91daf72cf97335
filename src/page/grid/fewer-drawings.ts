import type Handsontable from 'handsontable/base';

/**
 * Lets the grid package draw once where it would draw several times the same.
 *
 * When a selection moves out of view the package (18.1.1) scrolls, draws, draws again as it always does once a
 * selection has moved, and draws for the third time when the browser tells of the scroll. Each drawing has the browser
 * look at style and layout several times.
 */

interface Drawn {
  draw(fast?: boolean): unknown;
  /** It could not be drawn, since it is not to be seen. */
  readonly drawInterrupted: boolean;
  readonly wtTable: { readonly holder: HTMLElement };
}

interface Overlays {
  readonly wot: Drawn;
  /** What the package does when the browser tells of a scroll. */
  syncScrollPositions(): void;
}

/**
 * A scroll that is followed by a drawing does not draw by itself. What follows none is drawn when all that goes on has
 * come to its end.
 */
function drawAfterScrolling(hot: Handsontable): void {
  const { view } = hot;
  const [scrollTo, draw] = [hot.scrollViewportTo.bind(hot), view.render.bind(view)];
  let [scrolling, owing] = [false, false];
  view.render = () => {
    owing = scrolling;
    if (!scrolling) draw();
  };
  Object.assign(hot, {
    scrollViewportTo(...given: Parameters<typeof scrollTo>): boolean {
      scrolling = true;
      try {
        return scrollTo(...given);
      } finally {
        scrolling = false;
        if (owing)
          queueMicrotask(() => {
            if (owing && !hot.isDestroyed) view.render();
          });
      }
    },
  });
}

/** Does not draw for a scroll to where the grid was drawn last. */
function drawEachPlaceOnce(hot: Handsontable): void {
  // The package's types leave out what it draws with.
  const { wtOverlays: overlays } = hot.view._wt as unknown as { readonly wtOverlays: Overlays };
  const { wot } = overlays;
  const [follow, draw] = [overlays.syncScrollPositions.bind(overlays), wot.draw.bind(wot)];
  let following = false;
  let drawn: { readonly top: number; readonly left: number } | undefined;
  overlays.syncScrollPositions = () => {
    following = true;
    follow();
    following = false;
  };
  wot.draw = (fast) => {
    // A drawing begins by reading these, so the browser has no more to do for it here.
    const { scrollTop: top, scrollLeft: left } = wot.wtTable.holder;
    if (following && drawn?.top === top && drawn.left === left) return wot;
    // A drawing may ask for another at the same place, for headers that have become wider.
    drawn = undefined;
    draw(fast);
    drawn = wot.drawInterrupted ? undefined : { top, left };
    return wot;
  };
}

export function drawOnce(hot: Handsontable): void {
  drawAfterScrolling(hot);
  drawEachPlaceOnce(hot);
}
