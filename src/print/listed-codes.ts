/** M codes that count and whose line may hold further commands. */
const lookedIntoM: ReadonlySet<number> = new Set([
  82, 83, 109, 116, 190, 191, 200, 207, 208, 209, 221,
])

/** M codes that count; what stands behind them is their own. */
const countedM: ReadonlySet<number> = new Set([
  0, 1, 2, 25, 30, 92, 98, 163, 164, 165, 166, 226, 567, 600, 601, 808, 810, 811, 812, 813, 814,
  815, 816, 817, 818, 819,
])

/** Whether an M code counts at all; the line of any other is text, never looked into. */
export const isListedM = (code: number): boolean => lookedIntoM.has(code) || countedM.has(code)

/** Whether a line that begins so is searched for further commands. */
export const isLookedInto = (letter: string, code: number): boolean =>
  letter !== 'M' || lookedIntoM.has(code)

/** Names that the reader knows; other capital names may be macros. */
export const knownNames: ReadonlySet<string> = new Set([
  'SDCARD_LOOP_BEGIN',
  'SDCARD_LOOP_END',
  'PAUSE',
  'CANCEL_PRINT',
  'ACTIVATE_EXTRUDER',
  'SAVE_GCODE_STATE',
  'RESTORE_GCODE_STATE',
  'SET_RETRACTION',
  'SET_GCODE_OFFSET',
  'FORCE_MOVE',
  'SYNC_EXTRUDER_MOTION',
  'SET_EXTRUDER_ROTATION_DISTANCE',
])
