import type { FirmwareFamilyId } from './firmware-family.ts'
import {
  type Axes,
  type CornerRule,
  type MotionProfile,
  type MotionRules,
  motionDefaults,
  motionRules,
} from './motion-profile.ts'

/** What is known of the printer's motion when a reading begins. */
export interface MotionOptions {
  /** The printer's family; else the file's own commands tell, or `community` is taken. */
  readonly family?: FirmwareFamilyId
  /** Values of the printer that are known; the others are its family's. */
  readonly values?: Partial<Omit<MotionProfile, 'family'>>
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] }

/**
 * The motion profile in force while a print is read: what the printer was told to be, then what the
 * file's own commands make of it.
 */
export class MotionLimits {
  profile: Mutable<MotionProfile>
  rules: MotionRules
  /** M220, as a factor. */
  speedFactor = 1
  /** Rest between moves of different kind, where the family has a choice. */
  kindsStop: boolean
  /** Values that were set since the beginning. */
  readonly told: Set<keyof MotionProfile> = new Set()
  readonly #options: MotionOptions
  #familyKnown: boolean

  constructor(options: MotionOptions = {}) {
    this.#options = options
    this.#familyKnown = options.family !== undefined
    const family = options.family ?? 'community'
    this.profile = { ...motionDefaults[family], ...options.values }
    this.rules = motionRules[family]
    this.kindsStop = this.rules.kindsStop
  }

  /** Takes the family that a command belongs to, where nobody has told the printer's. */
  hint(family: FirmwareFamilyId): void {
    if (this.#familyKnown) return
    this.#familyKnown = true
    this.profile = { ...motionDefaults[family], ...this.#options.values }
    this.rules = motionRules[family]
    this.kindsStop = this.rules.kindsStop
  }

  set<K extends keyof Omit<MotionProfile, 'family'>>(key: K, value: MotionProfile[K]): void {
    this.profile[key] = value
    this.told.add(key)
  }

  /** Sets the axes named; a value must be above 0. */
  setAxes(key: 'maxFeed' | 'maxAccel' | 'jerk', values: readonly (number | undefined)[]): void {
    if (values.every((value) => value === undefined)) return
    const now = this.profile[key]
    const next = now.map((value, axis) => {
      const given = values[axis]
      return given !== undefined && given > 0 ? given : value
    })
    this.set(key, next as unknown as Axes)
  }

  /** Takes the corner rule that the file sets values of, where nobody has told the printer's. */
  hintCorner(rule: CornerRule): void {
    if (this.#options.values?.corner === undefined) this.set('corner', rule)
  }

  setSpeedFactor(factor: number): void {
    this.speedFactor = factor
  }

  setKindsStop(stop: boolean): void {
    this.kindsStop = stop
  }
}
