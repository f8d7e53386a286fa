/** Words for a sheet that can not be drawn. */
export const boundaryWords = {
  title: 'This sheet could not be drawn',
  sentence:
    'Something went wrong in drawing it. The ledger is untouched, and the other sheets are as you left them.',
  again: 'Draw it again',
} as const
