import type { Arc, ArcPoint } from './arc.ts'
import { arcPoints } from './arc-points.ts'
import type { Command } from './lex-line.ts'
import { letterBit, slot } from './plain-lines.ts'

/** Where a move goes, mm, and what kind it is. */
export interface Place {
  readonly x: number
  readonly y: number
  readonly z: number
  /** Whether the line says X or Y, be it the same as before. */
  readonly namesXY: boolean
  /** Null for a straight move. */
  readonly arc: ArcWords | null
}

/** What a line says of an arc. */
export interface ArcWords {
  readonly clockwise: boolean
  /** Null when the line does not say: it is taken as straight. */
  readonly about: Arc['about'] | null
}

/** How the words of an axis are meant. */
export interface AxisWords {
  /** mm to the unit. */
  readonly unit: number
  /** Counted from where the nozzle stands. */
  readonly relative: boolean
}

const bitX = letterBit('X')
const bitY = letterBit('Y')
const bitZ = letterBit('Z')
const bitI = letterBit('I')
const bitJ = letterBit('J')
const bitR = letterBit('R')

/**
 * Where a line goes whose words the kernel has put into the slots.
 *
 * @param seen - bits of the letters that it has
 * @param arc - 2 or 3 for an arc, else 0
 */
export const placeOfSlots = (
  slots: Float64Array,
  seen: number,
  arc: number,
  { unit, relative }: AxisWords,
): Place => {
  const to = (bit: number, word: number, at: number): number => {
    const from = slots[at]!
    return (seen & bit) === 0 ? from : (relative ? from : 0) + slots[word]! * unit
  }
  return {
    x: to(bitX, slot.wordX, slot.x),
    y: to(bitY, slot.wordY, slot.y),
    z: to(bitZ, slot.wordZ, slot.z),
    namesXY: (seen & (bitX | bitY)) !== 0,
    arc: arcOfSlots(slots, seen, arc, unit),
  }
}

/** The same of its arc alone. */
export const arcOfSlots = (
  slots: Float64Array,
  seen: number,
  arc: number,
  unit: number,
): ArcWords | null => {
  if (arc === 0) return null
  const word = (bit: number, at: number): number | null =>
    (seen & bit) === 0 ? null : slots[at]! * unit
  return {
    clockwise: arc === 2,
    about: aboutOf(word(bitI, slot.wordI), word(bitJ, slot.wordJ), word(bitR, slot.wordR)),
  }
}

/** Where a command goes that was read as text; the slots say where the nozzle stands. */
export const placeOfCommand = (
  slots: Float64Array,
  { code, words }: Command,
  { unit, relative }: AxisWords,
): Place => {
  const named = (letter: string): number | null => {
    const value = words.get(letter)?.value ?? null
    return value !== null && Number.isFinite(value) ? value : null
  }
  const to = (letter: string, at: number): number => {
    const value = named(letter)
    const from = slots[at]!
    return value === null ? from : (relative ? from : 0) + value * unit
  }
  const offset = (letter: string): number | null => {
    const value = named(letter)
    return value === null ? null : value * unit
  }
  const about = (): ArcWords['about'] => aboutOf(offset('I'), offset('J'), offset('R'))
  return {
    x: to('X', slot.x),
    y: to('Y', slot.y),
    z: to('Z', slot.z),
    namesXY: named('X') !== null || named('Y') !== null,
    arc: code === 2 || code === 3 ? { clockwise: code === 2, about: about() } : null,
  }
}

/** The points of a move from where the nozzle stands by the slots. */
export const wayTo = (
  slots: Float64Array,
  { x, y, z, arc }: Omit<Place, 'namesXY'>,
): readonly ArcPoint[] => {
  const from = { x: slots[slot.x]!, y: slots[slot.y]!, z: slots[slot.z]! }
  const to = { x, y, z }
  if (arc === null || arc.about === null) return [from, to]
  return arcPoints({ from, to, clockwise: arc.clockwise, about: arc.about })
}

/** An arc's centre, where I or J are given, or its radius. */
const aboutOf = (
  i: number | null,
  j: number | null,
  radius: number | null,
): Arc['about'] | null => {
  if (i !== null || j !== null) return { i: i ?? 0, j: j ?? 0 }
  return radius === null ? null : { radius }
}
