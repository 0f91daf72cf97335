const pattern = /[*?~]/;

/** Whether other programs take a text for a pattern when they look for it in a table. Source: common practice, none. */
export const readsAsPattern = (text: unknown): text is string => typeof text === 'string' && pattern.test(text);
