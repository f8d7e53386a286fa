import type { WaitingRowJson, WaitingToolJson } from '../contract/index.ts'
import type { MatchQuestion } from './match-question.ts'

/** The tools of a copy. */
export const toolsOf = ({ slate }: MatchQuestion, id: string): readonly number[] =>
  slate.copies.find((each) => each.id === id)!.tasks.map(({ tool }) => tool)

/** What a print wants for a tool, as far as anything was told. */
export const wantsOf = ({ tools }: WaitingRowJson, tool: number): Partial<WaitingToolJson> =>
  tools?.find((each) => each.tool === tool) ?? {}

/** The reels that fit a tool of a copy, those that may not be taken among them. */
export const fitsOf = ({ slate }: MatchQuestion, id: string, tool: number): readonly string[] =>
  slate.copies.find((each) => each.id === id)?.tasks.find((task) => task.tool === tool)?.fits ?? []

/** The reel that a tool of a copy is locked to. */
export const lockedTo = ({ slate }: MatchQuestion, id: string, tool: number): string | undefined =>
  slate.locks?.find((lock) => lock.copy === id && lock.tool === tool)?.reel
