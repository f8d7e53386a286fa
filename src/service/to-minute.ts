/** A moment without its seconds: to the minute is how people know when a print was started. */
export const toMinute = (moment: string): string => `${moment.slice(0, 16)}:00.000Z`
