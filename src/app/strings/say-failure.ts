/** Why the page could not be told something, in a sentence. */
export const sayFailure = (error: unknown): string =>
  error instanceof Error && error.message !== ''
    ? error.message
    : 'The page is not in touch with the ledger. Nothing is lost; try again in a moment.'
