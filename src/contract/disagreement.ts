/**
 * Why a reel is called *close* whatever its chance.
 *
 * @param who - what the sentence is about, as "reel QX5BN" or "the reel"
 * @param names - what was observed and does not agree with the rest; at least one
 */
export const disagreement = (who: string, names: readonly string[]): string =>
  `What is told of ${who} does not agree, so nothing is sure: look at ${names.join(', ')}.`
