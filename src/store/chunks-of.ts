/**
 * Slices of at most 500: SQLite takes 32 766 parameters in one statement, and a row of facts is 14.
 */
export const chunksOf = <T>(all: readonly T[]): T[][] => {
  const chunks: T[][] = []
  for (let from = 0; from < all.length; from += 500) chunks.push(all.slice(from, from + 500))
  return chunks
}
