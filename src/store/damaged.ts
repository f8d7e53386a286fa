import type { Refusal } from '../units/index.ts'

/** @param what - a half sentence on what was found */
export const damaged = (where: string, what: string): Refusal => ({
  code: 'damaged',
  message: `${where} is damaged: ${what}. Nothing was written to it. Keep the file as it is, and restore a backup that is whole.`,
})
