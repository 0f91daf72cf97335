import type { drawnPicture, pictureFile } from '../../pictures/drawing/drawn-picture.ts';

/** What draws, loaded only when pictures are opened. */
export interface DrawnAlike {
  readonly draw: typeof drawnPicture;
  readonly file: typeof pictureFile;
}
