/** A number of things: "1 belt", "2 belts". */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
