import type { ArcPoint, FirmwareFamily, ReadOptions } from '../../src/print/index.ts'
import type { Motion } from './twin-layers.ts'
import { type Command, isMove, plainNumber, type Word } from './twin-line.ts'

/** Thrown inside the twin only; `twinRead` makes a refusal of it. */
export class Unreadable extends Error {
  readonly code: string
  constructor(code: string) {
    super(code)
    this.code = code
  }
}

export const wordBudget = 1e9
export const feedBudget = 1e12
export const toolBudget = 32
const usualDiameter_mm = 1.75

/** The number of a setting; one without bounds is as good as none. */
const numberOf = (word: Word | undefined): number | undefined => {
  const value = word?.values[0]
  return Number.isFinite(value) ? value : undefined
}

/** A number of E that no reel could follow ends the reading. */
const checked = (value: number | undefined): number | undefined => {
  if (value !== undefined && !(Math.abs(value) < wordBudget)) {
    throw new Unreadable('number_too_large')
  }
  return value
}

const isTool = (value: number | undefined): value is number =>
  value !== undefined && Number.isInteger(value) && value >= 0 && value <= 99

const place = ({ X, Y, Z }: Readonly<Record<'X' | 'Y' | 'Z', number>>): ArcPoint => ({
  x: X,
  y: Y,
  z: Z,
})

interface Saved {
  readonly axesRelative: boolean
  readonly eRelative: boolean
  readonly e: number
  readonly flow: number
}

/** One printer of one family, as far as filament is concerned. */
export class Machine {
  readonly net = new Map<number, number>()
  readonly peak = new Map<number, number>()
  /** Called before a move feeds; the reference family finds layers here. */
  onMove: (motion: Motion) => void = () => {}

  private readonly family: FirmwareFamily
  private readonly options: ReadOptions
  private axesRelative = false
  private eRelative = false
  private inch = false
  private volumetric: boolean
  private tool = 0
  private position = { X: 0, Y: 0, Z: 0 }
  private readonly logicalE = new Map<number, number>()
  private readonly flow = new Map<number, number>()
  private readonly diameter = new Map<number, number>()
  private diameterOfAll: number
  private readonly retracted = new Set<number>()
  private readonly retractLength = new Map<number, number>()
  private readonly retractExtra = new Map<number, number>()
  private readonly saved = new Map<string, Saved>()

  constructor(family: FirmwareFamily, options: ReadOptions) {
    this.family = family
    this.options = options
    this.volumetric = options.eUnit === 'mm3'
    this.diameterOfAll = options.diameter_mm ?? usualDiameter_mm
  }

  get height_mm(): number {
    return this.position.Z
  }

  run(command: Command): void {
    const { name } = command
    if (isMove(name)) this.move(command)
    else if (name === 'G92') this.setPosition(command)
    else if (name === 'G90' || name === 'G91') this.setAxes(name === 'G91')
    else if (name === 'M82' || name === 'M83') this.eRelative = name === 'M83'
    else if (name === 'G20' || name === 'G21') this.inch = name === 'G20'
    else if (name.startsWith('T')) this.selectTool(Number(name.slice(1)))
    else if (name === 'M221') this.setFlow(command)
    else if (name === 'M200') this.setVolumetric(command)
    else if (name === 'G10') this.retract(command)
    else if (name === 'G11') this.recover()
    else if (name === 'M207') this.setRetraction(command)
    else if (name === 'M208') this.setRecovery(command)
  }

  /** `NAME KEY=VALUE` lines, understood by one family only. */
  runNamed(name: string, values: ReadonlyMap<string, string>): void {
    if (this.family.id !== 'host') return
    if (name === 'ACTIVATE_EXTRUDER') {
      const found = /^extruder([0-9]*)$/i.exec(values.get('EXTRUDER') ?? '')
      if (found) this.selectTool(Number(found[1]))
    } else if (name === 'SET_RETRACTION') {
      const length = plainNumber(values.get('RETRACT_LENGTH'))
      const extra = plainNumber(values.get('UNRETRACT_EXTRA_LENGTH'))
      if (length !== undefined && length >= 0) this.retractLength.set(-1, length)
      if (extra !== undefined) this.retractExtra.set(-1, extra)
    } else if (name === 'SAVE_GCODE_STATE') {
      this.saved.set(values.get('NAME') ?? 'default', {
        axesRelative: this.axesRelative,
        eRelative: this.eRelative,
        e: this.e,
        flow: this.flowOf(this.tool),
      })
    } else if (name === 'RESTORE_GCODE_STATE') {
      const state = this.saved.get(values.get('NAME') ?? 'default')
      if (!state) return
      this.axesRelative = state.axesRelative
      this.eRelative = state.eRelative
      this.e = state.e
      this.flow.set(this.tool, state.flow)
    }
  }

  private get e(): number {
    return this.logicalE.get(this.register) ?? 0
  }

  private set e(value: number) {
    this.logicalE.set(this.register, value)
  }

  /** One register for all tools, or one for each. */
  private get register(): number {
    return this.family.toolChange === 'own-register' ? this.tool : -1
  }

  private flowOf(tool: number): number {
    return this.flow.get(tool) ?? 1
  }

  private get eIsRelative(): boolean {
    const { eMode = 'code' } = this.options
    if (eMode !== 'code') return eMode === 'relative'
    return this.family.extruderMode === 'either'
      ? this.axesRelative || this.eRelative
      : this.eRelative
  }

  private setAxes(relative: boolean): void {
    this.axesRelative = relative
    if (this.family.extruderMode === 'linked') this.eRelative = relative
  }

  private get eScale(): number {
    if (!this.inch || !this.family.inchScalesE) return 1
    return this.volumetric && this.family.inchCubesVolumetric ? 25.4 ** 3 : 25.4
  }

  private feed(tool: number, mm: number): void {
    if (!(Math.abs(mm) < feedBudget)) throw new Unreadable('number_too_large')
    if (mm === 0) return
    const net = (this.net.get(tool) ?? 0) + mm
    this.net.set(tool, net)
    this.peak.set(tool, Math.max(this.peak.get(tool) ?? 0, net))
    if (this.net.size > toolBudget) throw new Unreadable('too_many_tools')
  }

  /** What `asked` of E comes to in mm of filament through the drive of a tool. */
  private filament(tool: number, asked: number): number {
    const diameter = this.diameter.get(tool) ?? this.diameterOfAll
    const area = (Math.PI * diameter ** 2) / 4
    return asked * this.flowOf(tool) * (this.volumetric ? 1 / area : 1)
  }

  private askedByDrive(command: Command): readonly (readonly [number, number])[] {
    const word = command.words.get('E')
    if (!word) return []
    if (word.expression) throw new Unreadable('expression')
    if (word.values.length === 0) throw new Unreadable('e_without_number')
    const values = this.family.id === 'meta' ? word.values : word.values.slice(0, 1)
    const scaled = values.map((value) => checked(value)! * this.eScale)
    if (!this.eIsRelative) {
      const asked = scaled[0]! - this.e
      this.e = scaled[0]!
      return [[this.tool, asked]]
    }
    this.e += scaled[0]!
    return scaled.length === 1
      ? [[this.tool, scaled[0]!]]
      : scaled.map((value, drive) => [drive, value] as const)
  }

  private move(command: Command): void {
    const from = { ...this.position }
    for (const axis of ['X', 'Y', 'Z'] as const) {
      const value = this.axis(command, axis)
      if (value === undefined) continue
      this.position[axis] = this.axesRelative ? this.position[axis] + value : value
    }
    const feeds = this.askedByDrive(command).map(
      ([drive, asked]) => [drive, this.filament(drive, asked)] as const,
    )
    const to = this.position
    this.onMove({
      stroke: {
        from: place(from),
        to: place(to),
        tool: this.tool,
        command: command.name,
        i: this.axis(command, 'I'),
        j: this.axis(command, 'J'),
        r: this.axis(command, 'R'),
      },
      feed_mm: feeds.reduce((sum, [, mm]) => sum + mm, 0),
      arc: command.name === 'G2' || command.name === 'G3',
      namesXY: (['X', 'Y'] as const).some((axis) => this.axis(command, axis) !== undefined),
      travels: to.X !== from.X || to.Y !== from.Y,
      fromHeight: from.Z,
      toHeight: to.Z,
      path_mm: Math.hypot(to.X - from.X, to.Y - from.Y),
    })
    for (const [drive, mm] of feeds) this.feed(drive, mm)
  }

  /** An axis number in mm; one without bounds is as good as not written. */
  private axis(command: Command, letter: 'X' | 'Y' | 'Z' | 'I' | 'J' | 'R'): number | undefined {
    const value = command.words.get(letter)?.values[0]
    if (value === undefined || !Number.isFinite(value)) return undefined
    return this.inch ? value * 25.4 : value
  }

  private setPosition(command: Command): void {
    const word = command.words.get('E')
    if (word?.expression) throw new Unreadable('expression')
    const value = checked(word?.values[0])
    if (value !== undefined) this.e = value * this.eScale
    else if (word && this.family.g92BareEZeroesE) this.e = 0
    else if (command.all.length === 0 && this.family.bareG92ZeroesE) this.e = 0
    for (const axis of ['X', 'Y', 'Z'] as const) {
      const position = this.axis(command, axis)
      if (position !== undefined) this.position[axis] = position
    }
  }

  private selectTool(tool: number): void {
    if (!isTool(tool)) return
    if (this.family.toolChange === 'zeroes-and-resets-flow' && tool !== this.tool) {
      this.e = 0
      this.flow.set(tool, 1)
    }
    this.tool = tool
  }

  /** The tool a letter names; the active one without it; nothing when it names none. */
  private toolOf(command: Command, letter: string): number | undefined {
    const word = command.words.get(letter)
    if (!word || word.values.length === 0) return this.tool
    return isTool(word.values[0]) ? word.values[0] : undefined
  }

  private setFlow(command: Command): void {
    const percent = numberOf(command.words.get('S'))
    if (percent === undefined || percent < 0) return
    switch (this.family.flow) {
      case 'T-or-active': {
        const tool = this.toolOf(command, 'T')
        if (tool !== undefined) this.flow.set(tool, Math.trunc(percent) / 100)
        return
      }
      case 'D-drive-or-tool': {
        const tool = this.toolOf(command, 'D')
        if (tool !== undefined && percent >= 1) this.flow.set(tool, Math.min(percent, 200) / 100)
        return
      }
      case 'active-resets':
        if (percent > 0) this.flow.set(this.tool, percent / 100)
        return
      case 'active':
        this.flow.set(this.tool, percent / 100)
    }
  }

  private setVolumetric(command: Command): void {
    if ((this.options.eUnit ?? 'code') !== 'code') return
    const word = command.words.get('D')
    const diameter = numberOf(word)
    const given = diameter !== undefined && diameter > 0
    const none = word !== undefined && !given
    const onOff = numberOf(command.words.get('S'))
    switch (this.family.volumetric) {
      case 'none':
        return
      case 'S-switch': {
        const tool = this.toolOf(command, 'T')
        if (tool === undefined) return
        if (given) this.diameter.set(tool, diameter)
        if (onOff === 0 || none) this.volumetric = false
        else if (given || onOff !== undefined) this.volumetric = true
        return
      }
      case 'D-only': {
        const tool = this.toolOf(command, 'T')
        if (tool === undefined) return
        if (given) this.diameter.set(tool, diameter)
        if (given) this.volumetric = true
        else if (none) this.volumetric = false
        return
      }
      case 'colon-list': {
        const list = word?.values ?? []
        if (list.length === 1 && given) {
          this.diameter.clear()
          this.diameterOfAll = diameter
        }
        if (list.length > 1) {
          for (const [drive, value] of list.entries())
            if (value > 0) this.diameter.set(drive, value)
        }
        const some = list.some((value) => value > 0)
        if (onOff === 0 || none) this.volumetric = false
        else if (some || onOff !== undefined) this.volumetric = true
        return
      }
      case 'P-extruder': {
        const tool = this.toolOf(command, 'P')
        if (tool === undefined) return
        if (given) this.diameter.set(tool, diameter)
        if (given) this.volumetric = true
        else if (none) this.volumetric = false
      }
    }
  }

  private retractSetting(settings: ReadonlyMap<number, number>): number {
    return settings.get(this.tool) ?? settings.get(-1) ?? 0
  }

  private retract(command: Command): void {
    const letters = command.all.map((word) => word.letter)
    if (letters.some((letter) => 'PRLXYZUVWABC'.includes(letter))) return
    if (this.family.g10WithSIsSetting && letters.includes('S')) return
    if (this.retracted.has(this.tool)) return
    this.retracted.add(this.tool)
    this.feedRetraction(-this.retractSetting(this.retractLength))
  }

  private recover(): void {
    if (!this.retracted.delete(this.tool)) return
    this.feedRetraction(
      this.retractSetting(this.retractLength) + this.retractSetting(this.retractExtra),
    )
  }

  private feedRetraction(mm: number): void {
    this.feed(this.tool, this.family.retractionScaled ? mm * this.flowOf(this.tool) : mm)
  }

  private setRetraction(command: Command): void {
    const { retraction } = this.family
    if (retraction === 'named') return
    const length = numberOf(command.words.get('S'))
    const extra = retraction === 'M207-R' ? numberOf(command.words.get('R')) : undefined
    if (retraction === 'M207-R' && command.words.has('P')) {
      const tool = this.toolOf(command, 'P')
      if (tool === undefined) return
      if (length !== undefined && length >= 0) this.retractLength.set(tool, length)
      if (extra !== undefined) this.retractExtra.set(tool, extra)
      return
    }
    // Without P all tools; what was said of single tools before is overruled.
    if (length !== undefined && length >= 0) {
      this.retractLength.clear()
      this.retractLength.set(-1, length)
    }
    if (extra !== undefined) {
      this.retractExtra.clear()
      this.retractExtra.set(-1, extra)
    }
  }

  private setRecovery(command: Command): void {
    if (this.family.retraction === 'named' || this.family.retraction === 'M207-R') return
    const extra = numberOf(command.words.get('S'))
    if (extra !== undefined) this.retractExtra.set(-1, extra)
  }
}
