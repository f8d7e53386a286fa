import type { CompiledSlate, Piece } from './compiled-slate.ts'
import type { Load } from './load-judge.ts'

/** A piece and the reel that serves it. */
export interface Serving {
  readonly piece: Piece
  /** Place of the reel. */
  readonly reel: number
}

/** How a copy is served: where, and what serves each piece; the pieces of each tool make a whole. */
export interface Choice {
  readonly printer: number
  /** By task, in the order in which they feed. */
  readonly servings: readonly Serving[]
}

/** A choice for each copy; null for one that is not served. */
export type Choices = readonly (Choice | null)[]

/** What each reel is asked to do, in the order of the copies. */
export const loadsOf = (choices: Choices, reels: number): readonly Load[] => {
  const loads: Piece[][] = Array.from({ length: reels }, () => [])
  for (const choice of choices) {
    for (const { piece, reel } of choice?.servings ?? []) loads[reel]!.push(piece)
  }
  return loads
}

/** Choices as places, to go between threads that have compiled the same slate. */
export type ChoicePlaces = readonly ({
  readonly printer: number
  readonly servings: readonly {
    readonly task: number
    readonly from: number
    readonly to: number
    readonly reel: number
  }[]
} | null)[]

export const placesOf = (choices: Choices): ChoicePlaces =>
  choices.map(
    (choice) =>
      choice && {
        printer: choice.printer,
        servings: choice.servings.map(({ piece: { task, from, to }, reel }) => ({
          task,
          from,
          to,
          reel,
        })),
      },
  )

export const choicesAt = ({ pieceOf }: CompiledSlate, places: ChoicePlaces): Choices =>
  places.map(
    (choice) =>
      choice && {
        printer: choice.printer,
        servings: choice.servings.map(({ task, from, to, reel }) => ({
          piece: pieceOf(task, choice.printer, from, to, reel),
          reel,
        })),
      },
  )
