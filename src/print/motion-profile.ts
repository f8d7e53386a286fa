import type { FirmwareFamilyId } from './firmware-family.ts'

/** A value each for X, Y, Z and the feeder. */
export type Axes = readonly [x: number, y: number, z: number, feeder: number]

/** How the speed at a corner is limited. */
export type CornerRule =
  /** No axis may change its speed by more than its jerk. */
  | 'jerk'
  /** As on a circle that touches both moves and passes the corner at the junction deviation. */
  | 'junction-deviation'
  /** The same, told by the speed at a right angle; with a minimum cruise ratio. */
  | 'square-corner'

/**
 * What a printer may do: limits and corner values, in mm, mm/s and mm/s². Values of corner rules
 * other than `corner` are kept for a file that sets them.
 *
 * @see docs/method/time.md
 */
export interface MotionProfile {
  readonly family: FirmwareFamilyId
  readonly maxFeed: Axes
  readonly maxAccel: Axes
  /** Acceleration of moves that feed, of moves that do not, and of the feeder alone. */
  readonly printAccel: number
  readonly travelAccel: number
  readonly retractAccel: number
  readonly corner: CornerRule
  /** Jerk of each axis, mm/s. */
  readonly jerk: Axes
  /** mm. */
  readonly junctionDeviation: number
  /** Speed at a right angle, mm/s. */
  readonly squareCorner: number
  /** Share of a move that is to be cruised, 0 to less than 1; for the square-corner rule. */
  readonly minimumCruise: number
  /** By how much the feeder's speed may jump at a corner, mm/s; for the square-corner rule. */
  readonly feederCorner: number
}

/** What the rules of a firmware family are, whatever a printer's values. */
export interface MotionRules {
  /** An axis that turns back counts the larger of its two speeds, not their sum (jerk). */
  readonly reversalCountsOnce: boolean
  /** Chords under 1 mm that turn by less than 45° are taken as a curve of their own radius. */
  readonly curvesOfShortChords: boolean
  /** Moves of the feeder alone begin and end at rest. */
  readonly feederAloneStops: boolean
  /** Rest between moves of different kind: X and Y moving or not, printing or not. */
  readonly kindsStop: boolean
  /** The feeder's limits hold for moves that print, too. */
  readonly feederLimitsPrinting: boolean
}

const common = {
  squareCorner: 5,
  minimumCruise: 0.5,
  feederCorner: 1,
} as const

const community: MotionProfile = {
  family: 'community',
  maxFeed: [300, 300, 5, 25],
  maxAccel: [3000, 3000, 100, 10_000],
  printAccel: 3000,
  travelAccel: 3000,
  retractAccel: 3000,
  corner: 'junction-deviation',
  jerk: [10, 10, 0.3, 5],
  junctionDeviation: 0.013,
  ...common,
}

/**
 * A printer of each family of which nobody has told more.
 *
 * Sources: the firmware's own defaults as collected for the project (reference pages and sources,
 * November 2026). Where the firmware has none they are marked: common practice, no source.
 */
export const motionDefaults: Readonly<Record<FirmwareFamilyId, MotionProfile>> = {
  community,
  'community-1': { ...community, family: 'community-1', corner: 'jerk' },
  meta: {
    ...community,
    family: 'meta',
    // Speeds: common practice, no source.
    maxFeed: [300, 300, 15, 60],
    maxAccel: [1000, 1000, 200, 500],
    // No limit of their own.
    printAccel: 50_000,
    travelAccel: 50_000,
    retractAccel: 50_000,
    corner: 'jerk',
    jerk: [15, 15, 10, 5],
  },
  host: {
    ...community,
    family: 'host',
    // Speed and acceleration have no default: common practice, no source. The feeder's follow from
    // them by the cross-section that a 0.4 mm nozzle may lay, 4 × 0.4² mm² over the filament's.
    maxFeed: [300, 300, 15, 80],
    maxAccel: [3000, 3000, 300, 800],
    corner: 'square-corner',
  },
  textfile: {
    ...community,
    family: 'textfile',
    // Speeds and accelerations: common practice, no source.
    maxFeed: [300, 300, 10, 50],
    corner: 'junction-deviation',
    junctionDeviation: 0.05,
  },
}

/** The rules of each family; see docs/method/time.md for sources. */
export const motionRules: Readonly<Record<FirmwareFamilyId, MotionRules>> = {
  community: {
    reversalCountsOnce: true,
    curvesOfShortChords: true,
    feederAloneStops: false,
    kindsStop: false,
    feederLimitsPrinting: true,
  },
  'community-1': {
    reversalCountsOnce: true,
    curvesOfShortChords: false,
    feederAloneStops: false,
    kindsStop: false,
    feederLimitsPrinting: true,
  },
  meta: {
    reversalCountsOnce: false,
    curvesOfShortChords: false,
    feederAloneStops: true,
    kindsStop: true,
    feederLimitsPrinting: true,
  },
  host: {
    reversalCountsOnce: false,
    curvesOfShortChords: false,
    feederAloneStops: true,
    kindsStop: false,
    feederLimitsPrinting: false,
  },
  textfile: {
    reversalCountsOnce: false,
    curvesOfShortChords: false,
    feederAloneStops: true,
    kindsStop: false,
    feederLimitsPrinting: true,
  },
}
