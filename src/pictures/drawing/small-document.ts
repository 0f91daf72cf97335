import { escaped } from '../../sheet/words.ts';

/**
 * As much of a document as a plotting library needs to put elements into each other: what it draws leaves as text, so
 * that a picture is the same on the page, in a file and without a browser. Nothing is laid out, styled or listened to.
 */

const svgNames = 'http://www.w3.org/2000/svg';
const htmlNames = 'http://www.w3.org/1999/xhtml';

type Child = SmallElement | SmallText;

class SmallText {
  readonly #text: string;

  constructor(text: string) {
    this.#text = text;
  }

  toString(): string {
    return escaped(this.#text);
  }
}

export class SmallElement {
  readonly ownerDocument: SmallDocument;
  readonly namespaceURI: string;
  readonly tagName: string;
  readonly childNodes: Child[] = [];
  readonly #attributes = new Map<string, string>();
  readonly #styles = new Map<string, string>();
  readonly style = { setProperty: (name: string, value: string): unknown => this.#styles.set(name, value) };
  parentNode: SmallElement | null = null;
  /** The place of what it stands for, put here by the library. */
  __data__: unknown;

  constructor(owner: SmallDocument, namespace: string, name: string) {
    this.ownerDocument = owner;
    this.namespaceURI = namespace;
    this.tagName = name;
  }

  get children(): SmallElement[] {
    return this.childNodes.filter((child) => child instanceof SmallElement);
  }

  appendChild<Node extends Child>(child: Node): Node {
    if (child instanceof SmallElement) child.parentNode = this;
    this.childNodes.push(child);
    return child;
  }

  insertBefore<Node extends Child>(child: Node, before: Child | null): Node {
    const at = before === null ? -1 : this.childNodes.indexOf(before);
    if (at < 0) return this.appendChild(child);
    if (child instanceof SmallElement) child.parentNode = this;
    this.childNodes.splice(at, 0, child);
    return child;
  }

  setAttribute(name: string, value: unknown): void {
    this.#attributes.set(name, String(value));
  }

  setAttributeNS(_names: string, name: string, value: unknown): void {
    this.setAttribute(name, value);
  }

  getAttribute(name: string): string | null {
    return this.#attributes.get(name) ?? null;
  }

  hasAttribute(name: string): boolean {
    return this.#attributes.has(name);
  }

  removeAttribute(name: string): void {
    this.#attributes.delete(name);
  }

  set textContent(text: string | null) {
    this.childNodes.length = 0;
    if (text !== null && text !== '') this.appendChild(this.ownerDocument.createTextNode(text));
  }

  toString(): string {
    const style = [...this.#styles].map(([name, value]) => `${name}:${value}`).join(';');
    const attributes = [...this.#attributes, ...(style === '' ? [] : [['style', style] as const])]
      .map(([name, value]) => ` ${name}="${escaped(value)}"`)
      .join('');
    return `<${this.tagName}${attributes}>${this.childNodes.map(String).join('')}</${this.tagName}>`;
  }
}

export class SmallDocument {
  readonly documentElement = new SmallElement(this, htmlNames, 'html');

  createElementNS(names: string, name: string): SmallElement {
    return new SmallElement(this, names, name);
  }

  createElement(name: string): SmallElement {
    return new SmallElement(this, htmlNames, name);
  }

  createTextNode(text: string): SmallText {
    return new SmallText(text);
  }

  /** An element of a drawing, with attributes. */
  drawn(name: string, attributes: Readonly<Record<string, string | number>>, text = ''): SmallElement {
    const element = this.createElementNS(svgNames, name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    if (text !== '') element.textContent = text;
    return element;
  }
}
