/** Texts of more characters are seldom the same. */
const longest = 100;
/** Different texts that are remembered. */
const most = 20_000;

/**
 * Texts as they are kept of a file: each once, and by itself. A text cut out of a larger one keeps all of that in
 * memory: a few words in each row kept the whole of a sheet's XML.
 */
export class KeptTexts {
  readonly #known = new Map<string, string>();

  kept(text: string): string {
    const known = text.length > longest ? undefined : this.#known.get(text);
    if (known !== undefined) return known;
    // A text put together anew has nothing else behind it.
    const own = ` ${text}`.slice(1);
    if (text.length <= longest && this.#known.size < most) this.#known.set(own, own);
    return own;
  }
}
