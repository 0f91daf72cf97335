/**
 * The order in which the energy stored in a belt is taken out before a joint is opened, and let in again after it is
 * closed. Cautions, reminders and steps all say it in these words. It holds for any take-up; where the supplier of the
 * belt, the winch or the clamps says otherwise, follow that. Source: 29 CFR 1910.147 for isolating, releasing and
 * proving; the order of take-up and clamps is common practice, no source.
 */

/** Before the joint is opened, each an imperative clause. */
export const release = {
  isolate: 'isolate and lock out every energy source of the conveyor and of the equipment that feeds it',
  attempt: 'try to start it, to prove the isolation',
  takeUp: 'draw back the take-up or raise its weight, slowly, and secure it',
  clamp: 'clamp both runs to the frame on both sides of the joint',
  prove: 'prove that no tension is left between the clamps',
  open: 'only then open the joint',
} as const;

/** After the work. It is not the reverse: the clamps stay until the take-up holds the belt. */
export const restore = {
  clamped: 'close the joint and leave the clamps on',
  takeUp: 'let the take-up down slowly until it holds the belt',
  unclamp: 'only then remove the clamps',
  guards: 'put every guard back and account for people and tools',
  unlock: 'make sure that everyone is clear, and remove the locks in the permit sequence',
} as const;

/** The clauses of an order as one sentence without its full stop. */
export const inOrder = (clauses: readonly string[]): string => {
  const whole = clauses.join('; ');
  return `${whole.charAt(0).toUpperCase()}${whole.slice(1)}`;
};

export const releaseOrder = inOrder(Object.values(release));
export const restoreOrder = inOrder(Object.values(restore));
