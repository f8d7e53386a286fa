import { usageFault } from './fault.ts'

const options = ['member', 'stretch', 'draw', 'mass', 'all', 'picture', 'layer'] as const

/** @throws Fault for what is about one print, and would be about another in the next file */
export const onlyForOne = (
  typed: { readonly [Name in (typeof options)[number]]?: unknown },
): void => {
  for (const option of options) {
    if (typed[option] === undefined) continue
    throw usageFault(
      'for_one_print',
      `--${option} is for one print, and several are given. Ask about that one by itself.`,
      `--${option}`,
    )
  }
}
