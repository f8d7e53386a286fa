import { parameter } from './apply-command.ts'
import type { FirmwareFamilyId } from './firmware-family.ts'
import type { Command } from './lex-line.ts'
import type { MotionLimits } from './motion-limits.ts'

/** M codes that change how a printer moves and nothing else; M400 waits until it stands. */
const motionCodes: ReadonlySet<number> = new Set([201, 203, 204, 205, 220, 400, 566])

/** Whether an M code counts for time alone. */
export const isMotionM = (code: number): boolean => motionCodes.has(code)

const axisLetters = ['X', 'Y', 'Z', 'E'] as const

const isCommunity = (family: FirmwareFamilyId): boolean =>
  family === 'community' || family === 'community-1'

/**
 * Does to the motion profile what a command of the file does under its family.
 *
 * @see docs/method/time.md, "What the file sets"
 */
export const applyMotion = (limits: MotionLimits, command: Command): void => {
  const { letter, code, words } = command
  if (letter === '') {
    if (command.name.toUpperCase() === 'SET_VELOCITY_LIMIT') setVelocityLimit(limits, command.rest)
    return
  }
  if (letter !== 'M') return
  const word = (of: string): number | undefined => {
    const value = words.get(of)?.value
    return value != null && Number.isFinite(value) ? value : undefined
  }
  const axes = (factor = 1): (number | undefined)[] =>
    axisLetters.map((axis) => {
      const value = word(axis)
      return value === undefined ? undefined : value * factor
    })
  const { family } = limits.profile
  switch (code) {
    case 201:
      if (isCommunity(family) || family === 'meta') limits.setAxes('maxAccel', axes())
      break
    case 203:
      if (family === 'meta') limits.setAxes('maxFeed', axes(word('S') === 1 ? 1 : 1 / 60))
      else if (family !== 'host') limits.setAxes('maxFeed', axes())
      break
    case 204:
      setAcceleration(limits, word)
      break
    case 205:
      setCorner(limits, word, axes())
      break
    case 220:
      setSpeed(limits, word('S'))
      break
    case 566:
      if (family !== 'meta') return
      limits.setAxes('jerk', axes(1 / 60))
      if (word('P') !== undefined) limits.setKindsStop(word('P') === 0)
      break
    default:
  }
}

type WordOf = (letter: string) => number | undefined

const setSpeed = (limits: MotionLimits, percent: number | undefined): void => {
  if (percent !== undefined && percent > 0) limits.setSpeedFactor(percent / 100)
}

const setAcceleration = (limits: MotionLimits, word: WordOf): void => {
  const { family } = limits.profile
  const put = (
    key: 'printAccel' | 'travelAccel' | 'retractAccel',
    value: number | undefined,
  ): void => {
    if (value !== undefined && value > 0) limits.set(key, value)
  }
  const print = word('P')
  const travel = word('T')
  if (family === 'host') {
    const both =
      word('S') ??
      (print !== undefined && travel !== undefined ? Math.min(print, travel) : undefined)
    put('printAccel', both)
    put('travelAccel', both)
    return
  }
  if (family !== 'meta') {
    put('printAccel', word('S'))
    put('travelAccel', word('S'))
  }
  if (family === 'textfile') return
  put('printAccel', print)
  put('travelAccel', travel)
  if (family !== 'meta') put('retractAccel', word('R'))
}

const setCorner = (
  limits: MotionLimits,
  word: WordOf,
  axes: readonly (number | undefined)[],
): void => {
  const { family } = limits.profile
  if (family === 'host') return
  if (family === 'textfile') {
    const deviation = word('X')
    if (deviation !== undefined && deviation > 0) limits.set('junctionDeviation', deviation)
    return
  }
  if (axes[0] !== undefined || axes[1] !== undefined) limits.hintCorner('jerk')
  limits.setAxes('jerk', axes)
  const deviation = word('J')
  if (isCommunity(family) && deviation !== undefined && deviation > 0) {
    limits.hintCorner('junction-deviation')
    limits.set('junctionDeviation', deviation)
  }
}

const setVelocityLimit = (limits: MotionLimits, rest: string): void => {
  if (limits.profile.family !== 'host') return
  const number = (key: string): number | undefined => {
    const value = Number.parseFloat(parameter(rest, key) ?? '')
    return Number.isFinite(value) ? value : undefined
  }
  const { profile } = limits
  const speed = number('VELOCITY')
  if (speed !== undefined && speed > 0) {
    limits.set('maxFeed', [speed, speed, Math.min(profile.maxFeed[2], speed), profile.maxFeed[3]])
  }
  const accel = number('ACCEL')
  if (accel !== undefined && accel > 0) {
    limits.set('printAccel', accel)
    limits.set('travelAccel', accel)
  }
  const corner = number('SQUARE_CORNER_VELOCITY')
  if (corner !== undefined && corner >= 0) limits.set('squareCorner', corner)
  const cruise = number('MINIMUM_CRUISE_RATIO')
  if (cruise !== undefined && cruise >= 0 && cruise < 1) limits.set('minimumCruise', cruise)
}

/** The family that a command gives away; undefined where it may be any. */
export const familyOfCommand = ({ letter, code, name }: Command): FirmwareFamilyId | undefined => {
  if (letter === 'M') return code === 566 || code === 98 ? 'meta' : undefined
  if (letter !== '') return undefined
  if (/^(?:if|elif|else|while|var|set|global|echo|abort)$/.test(name)) return 'meta'
  return /^[A-Z][A-Z0-9]*_[A-Z0-9_]+$/.test(name) ? 'host' : undefined
}
