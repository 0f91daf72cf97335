/** What was typed can't be run: the message says what, what is allowed and where to read more. Exit code 2. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UsageError';
  }
}

/** A file that can't be read or written, or holds nothing the command can use. Exit code 2. */
export class FileError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'FileError';
  }
}
