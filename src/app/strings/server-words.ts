/** What the app itself says of its server. */
export const serverWords = {
  outOfReach: 'The server can not be reached.',
  endedEarly: 'The server ended before the match did.',
  failed: 'Error',
  noReason: (status: number): string => `The server answered with status ${status} and no reason.`,
} as const
