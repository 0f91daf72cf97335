import { html, type TemplateResult } from 'lit-html';

/** A line between two parts of the page that is drawn to share the room otherwise, by pointer or arrow keys. */
interface Grip {
  /** How the line runs. */
  readonly way: 'upright' | 'level';
  readonly label: string;
  readonly controls: string;
  /** Size of the part right of the line or below it, in CSS pixels. */
  readonly size: number;
  readonly least: number;
  readonly most: number;
  /** Undefined asks for the size that the part has by itself. */
  readonly draw: (size: number | undefined) => void;
}

const step = 24;

export function grip({ way, label, controls, size, least, most, draw }: Grip): TemplateResult {
  const bounded = (wanted: number): void => draw(Math.min(most, Math.max(least, Math.round(wanted))));
  const [more, less] = way === 'upright' ? ['ArrowLeft', 'ArrowRight'] : ['ArrowUp', 'ArrowDown'];
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === more) bounded(size + step);
    else if (event.key === less) bounded(size - step);
    else if (event.key === 'Enter') draw(undefined);
    else return;
    event.preventDefault();
  };
  const onMove = (event: PointerEvent): void => {
    const line = event.currentTarget as HTMLElement;
    if (!line.hasPointerCapture(event.pointerId)) return;
    const box = line.getBoundingClientRect();
    // What the pointer is away from the line's middle, the part grows or shrinks by.
    bounded(
      size +
        (way === 'upright' ? (box.left + box.right) / 2 - event.clientX : (box.top + box.bottom) / 2 - event.clientY),
    );
  };
  return html`<div class="grip grip-${way}" role="separator" tabindex="0"
    aria-orientation=${way === 'upright' ? 'vertical' : 'horizontal'} aria-label=${label} aria-controls=${controls}
    aria-valuenow=${size} aria-valuemin=${least} aria-valuemax=${most}
      title="${label}: drag it, or press arrows; double-click or Enter for the usual size"
    @keydown=${onKey} @pointermove=${onMove} @dblclick=${() => draw(undefined)}
    @pointerdown=${(event: PointerEvent) =>
      (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId)}></div>`;
}
