import type { Action } from './action.ts';

export const fileActions: readonly Action[] = [];
