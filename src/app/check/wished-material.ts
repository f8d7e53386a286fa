import type { WaitingTellJson } from '../../contract/index.ts'

/**
 * What a print of the slate is to be made of, as it was put there.
 *
 * @param print - as `printId` has it
 * @returns id of the material; null where the print does not wait, where any will do, and where its tools
 *   or its copies want different ones
 */
export const wishedMaterial = (
  waiting: readonly Pick<WaitingTellJson, 'row' | 'tools'>[],
  print: string,
): string | null => {
  const wanted = new Set(
    waiting
      .filter(({ row }) => row.print === print)
      .flatMap(({ row, tools }) =>
        tools.map(({ tool }) => row.tools?.find((one) => one.tool === tool)?.material ?? null),
      ),
  )
  const [only = null] = wanted
  return wanted.size === 1 ? only : null
}
