import type { FirmwareFamilyId } from './firmware-family.ts'

/** So many chords at most; more make an arc that is no part of a print. */
const mostChords = 20_000

/**
 * Into how many chords firmware cuts an arc: time is planned on the chords.
 *
 * @param length - of the arc, mm
 * @param radius - mm, > 0
 * @param speed - asked for, mm/s
 * @returns 1 or more
 * @see docs/method/time.md, "Arcs"
 */
export const chordsOf = (
  family: FirmwareFamilyId,
  length: number,
  radius: number,
  speed: number,
): number => {
  const chords = length / chordLength(family, radius, speed)
  return Math.min(mostChords, Math.max(1, Math.floor(chords)))
}

const chordLength = (family: FirmwareFamilyId, radius: number, speed: number): number => {
  if (family === 'meta') {
    return Math.min(1, Math.max(0.02, Math.min(Math.sqrt(8 * radius * 0.005), speed / 200)))
  }
  // The chord whose middle lies 0.01 mm off the arc.
  if (family === 'textfile') {
    return Math.max(0.02, 2 * Math.sqrt(Math.max(0, 0.01 * (2 * radius - 0.01))))
  }
  return 1
}
