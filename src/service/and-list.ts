const list = new Intl.ListFormat('en-GB')

/** `a`, `a and b`, `a, b and c`. */
export const andList = (words: readonly string[]): string => list.format(words)
