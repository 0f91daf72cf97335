import type { Picture } from '../../pictures/picture.ts';
import { download, fileName } from '../downloading.ts';
import type { DrawnAlike } from './drawn-alike.ts';
import type { PicturesSession } from './pictures-session.ts';

/** Pictures as files, in the light colours. */

/** In CSS pixels; a file is the same on every screen. */
const size = { width: 820, height: 440 };
/** Pixels of a bitmap a CSS pixel, so that it is sharp in print. */
const density = 2;

const nameOf = ({ desk }: PicturesSession, picture: Picture, ending: string): string =>
  fileName(`${desk.book.state.title} ${picture.title.replaceAll(/[/\\:]/g, ' ')}`, ending);

const textOf = (session: PicturesSession, picture: Picture, { file }: DrawnAlike): string => {
  const { title, invented } = session.desk.book.state;
  return file(picture, size, `${title || 'Skewbook'}${invented ? ', invented figures' : ''}`);
};

export function saveDrawing(session: PicturesSession, picture: Picture, drawn: DrawnAlike): void {
  const name = nameOf(session, picture, '.svg');
  download(textOf(session, picture, drawn), 'image/svg+xml', name);
  session.say(`${name} was written.`);
}

/** A drawing as a bitmap, by the browser itself. */
async function bitmap(text: string): Promise<Uint8Array> {
  const url = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.naturalWidth * density;
    canvas.height = image.naturalHeight * density;
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('this browser can draw no bitmap');
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (blob === null) throw new Error('this browser can write no bitmap');
    return new Uint8Array(await blob.arrayBuffer());
  } finally {
    URL.revokeObjectURL(url);
  }
}

export function saveBitmap(session: PicturesSession, picture: Picture, drawn: DrawnAlike): void {
  const name = nameOf(session, picture, '.png');
  bitmap(textOf(session, picture, drawn)).then(
    (bytes) => {
      download(bytes, 'image/png', name);
      session.say(`${name} was written.`);
    },
    (error: unknown) =>
      session.say(`${name} could not be written: ${error instanceof Error ? error.message : String(error)}.`),
  );
}
