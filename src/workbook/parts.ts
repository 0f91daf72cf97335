/** Does in one go what could be done part by part. */
export function wholly<Result>(parts: Generator<void, Result>): Result {
  for (;;) {
    const { done, value } = parts.next();
    if (done === true) return value;
  }
}
