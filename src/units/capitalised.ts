/** A sentence from what may stand within one: its first letter large. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
