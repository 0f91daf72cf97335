/** Stands for a module that a build leaves out: vite.config.ts says which. */
export {};
