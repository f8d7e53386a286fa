import type { FirmwareFamilyId } from './firmware-family.ts'
import { applyMotion } from './motion-commands.ts'
import { MotionLimits, type MotionOptions } from './motion-limits.ts'
import { motionLine } from './motion-line.ts'

const setting = /^\s*([a-z_]+)\s*[:=]\s*([\d.]+)/i

/** What a printer answers in front of a line. */
const echo = /^(?:echo|recv|send)?\s*[:<>]*\s*/i

type Axis = 0 | 2 | 3

/** Settings of the host family, and where each belongs. */
const axisSettings: Readonly<Record<string, readonly ['maxFeed' | 'maxAccel', readonly Axis[]]>> = {
  max_velocity: ['maxFeed', [0]],
  max_z_velocity: ['maxFeed', [2]],
  max_extrude_only_velocity: ['maxFeed', [3]],
  max_z_accel: ['maxAccel', [2]],
  max_extrude_only_accel: ['maxAccel', [3]],
}

/**
 * What a printer's answer to M503 tells of its motion, or the configuration of a printer of the host
 * family; other lines are passed over.
 *
 * @param text - as pasted
 * @param family - of the printer, where it is known
 * @returns null where nothing in it tells of motion
 */
export const motionOfReport = (text: string, family?: FirmwareFamilyId): MotionOptions | null => {
  const lines = text.split(/\r\n|\n|\r/).map((line) => line.replace(echo, ''))
  const isHost = family === 'host' || (family === undefined && lines.some(isHostSetting))
  const ofMeta = family === undefined && lines.some((line) => motionLine(line)?.code === 566)
  const told = isHost ? 'host' : ofMeta ? 'meta' : family
  const limits = new MotionLimits(told === undefined ? {} : { family: told })
  for (const line of lines) {
    const command = motionLine(line)
    if (command !== null) applyMotion(limits, command)
    else if (isHost) applySetting(limits, line)
  }
  if (limits.told.size === 0) return null
  const values = Object.fromEntries([...limits.told].map((key) => [key, limits.profile[key]]))
  return { ...(told !== undefined && { family: told }), values }
}

const isHostSetting = (line: string): boolean => {
  const name = setting.exec(line)?.[1]?.toLowerCase()
  return name === 'max_velocity' || name === 'max_accel' || name === 'square_corner_velocity'
}

const applySetting = (limits: MotionLimits, line: string): void => {
  const [, name = '', digits = ''] = setting.exec(line) ?? []
  const value = Number.parseFloat(digits)
  if (!(value >= 0)) return
  const key = name.toLowerCase()
  const ofAxis = axisSettings[key]
  if (ofAxis !== undefined && value > 0) {
    const [what, axes] = ofAxis
    const next = [...limits.profile[what]] as [number, number, number, number]
    for (const axis of axes) next[axis] = value
    if (key === 'max_velocity') next[1] = value
    limits.set(what, next)
  } else if (key === 'max_accel' && value > 0) {
    limits.set('printAccel', value)
    limits.set('travelAccel', value)
    const [, , z, feeder] = limits.profile.maxAccel
    limits.set('maxAccel', [value, value, z, feeder])
  } else if (key === 'square_corner_velocity' && value > 0) limits.set('squareCorner', value)
  else if (key === 'minimum_cruise_ratio' && value < 1) limits.set('minimumCruise', value)
}
