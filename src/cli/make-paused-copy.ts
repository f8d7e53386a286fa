import { createHash } from 'node:crypto'
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { changeCaution, type PausedCopyJson } from '../contract/index.ts'
import {
  drawsTheSame,
  type FirmwareFamilyId,
  PausedCopy,
  PausedCopyCheck,
  PauseFinder,
  type PausePurpose,
  type PlannedPause,
  PrintReader,
  type PrintReading,
  PrintUnpacker,
  pauseCommand,
  pauseLine,
  type ReadOptions,
} from '../print/index.ts'
import { chosenPrint } from './chosen-print.ts'
import { exitCode, Fault, refusedFile } from './fault.ts'
import { inCommandWords } from './in-command-words.ts'
import { Progress } from './progress.ts'
import { readAhead } from './read-ahead.ts'
import { faultOfFile, readInput } from './read-input.ts'

/** A copy that is wanted. */
export interface CopyWanted {
  readonly file: string
  /** Name in sentences and in what is told; the file's unless given. */
  readonly called?: string
  readonly member?: string
  readonly options: ReadOptions & { readonly firmware: FirmwareFamilyId }
  readonly layers: readonly number[]
  readonly purpose: PausePurpose
  /** What to do at each stop. */
  readonly note?: string
  /** Where it is written; not there yet. */
  readonly draft: string
}

/**
 * Writes a copy of a print file with stops in it, and reads it again before anybody gets it: without
 * the lines that were put in it must be the original byte for byte, and it must draw the same.
 * The file goes by four times, in constant memory.
 *
 * @throws Fault: unreadable input, a file of which it is open how E counts, no place for a stop, a copy that is not sound, or cancelled
 */
export const makePausedCopy = async (
  wanted: CopyWanted,
  signal: AbortSignal,
): Promise<PausedCopyJson> => {
  const { file, options, draft, called = file } = wanted
  const { firmware } = options
  const input = await readInput(file, options)
  const { name, reading } = chosenPrint(input.print.prints, wanted.member)
  const asked = reading.findings.find(({ code }) => code === 'e_looks_relative')
  if (asked !== undefined) {
    throw new Fault(exitCode.surprising, {
      code: asked.code,
      message: `${inCommandWords(asked)} Where a layer's last bead ends hangs on it: no copy was made.`,
      file: called,
      line: asked.line,
    })
  }
  const fed = reading.families[0]?.tools.filter(({ peak_mm }) => peak_mm > 0) ?? []
  // Unloading by itself a printer takes the reel of the tool that is active, which may not be meant.
  const purpose = fed.length > 1 ? 'pause' : wanted.purpose
  const unpacked = (what: string, take: (bytes: Uint8Array) => void): Promise<void> =>
    unpack({ file, called, member: name }, what, take, signal)

  const before = createHash('sha256')
  const finder = new PauseFinder(reading, options, wanted.layers)
  await unpacked('finding the layers’ ends', (bytes) => {
    before.update(bytes)
    finder.push(bytes)
  })
  const places = finder.finish()
  if (!places.ok) throw refusedFile(called, places.refusal)
  const note = wanted.note ?? ''
  const pauses = places.value.map((place): PlannedPause => ({ place, purpose, note }))

  const writer = new PausedCopy(firmware, pauses)
  const fd = openSync(draft, 'wx', 0o600)
  try {
    await unpacked('copying', (bytes) => {
      for (const part of writer.push(bytes)) writeFully(fd, part)
    })
    fsyncSync(fd)
  } finally {
    closeSync(fd)
  }

  const check = new PausedCopyCheck(firmware, pauses)
  const between = createHash('sha256')
  const copied = createHash('sha256')
  const reader = new PrintReader(options)
  let bytes = 0
  await eachSlice({ file: draft, called }, 'reading the copy', signal, (slice) => {
    bytes += slice.length
    copied.update(slice)
    reader.push(slice)
    for (const part of check.push(slice)) between.update(part)
  })
  const again = reader.finish()
  const isTrue = writer.isWhole && check.isSound && between.digest('hex') === before.digest('hex')
  if (!isTrue || !again.ok || !drawsTheSame(reading, again.value)) {
    throw new Fault(exitCode.unreadable, {
      code: 'copy_not_sound',
      message: `The copy did not read back as the same print${isTrue ? ': it would draw something else' : ': the file may have changed meanwhile'}. It was thrown away; the original is untouched. Try again, or stop the print by hand.`,
      file: called,
    })
  }
  const { code, does, needs } = pauseCommand(firmware, purpose)
  return {
    file: called,
    member: name,
    to: draft,
    firmware,
    command: code,
    does,
    needs,
    pauses: toldOf(firmware, pauses, reading),
    bytes,
    sha256: copied.digest('hex'),
    notes: notesOf(reading, wanted.purpose !== purpose),
    caution: changeCaution,
  }
}

const toldOf = (
  firmware: FirmwareFamilyId,
  pauses: readonly PlannedPause[],
  reading: PrintReading,
): PausedCopyJson['pauses'] => {
  let shift = 0
  return pauses.map((pause, before) => {
    const { layer, height_mm, byte, line, tool } = pause.place
    const text = pauseLine(firmware, pause)
    const at = byte + shift
    shift += text.length
    return {
      after_layer: layer,
      height_mm,
      line: line + before + 1,
      byte: at,
      tool,
      drawn_mm: (reading.families[0]?.tools ?? [])
        .filter(({ peak_mm }) => peak_mm > 0)
        .map((each) => ({ tool: each.tool, draw_mm: each.layerEnd_mm[layer - 1] ?? 0 })),
      text: text.trimEnd(),
    }
  })
}

const notesOf = ({ layers }: PrintReading, isOnlyPause: boolean): readonly string[] => [
  ...(layers.spiral
    ? [
        'The print climbs all the time: a stop leaves a mark in its wall, and its layers are only counted.',
      ]
    : []),
  ...(isOnlyPause
    ? [
        'The print has several tools, so the printer only waits: change the reel that is meant by hand.',
      ]
    : []),
]

/** Machine code of one print of a file. */
interface Packed {
  readonly file: string
  readonly called: string
  readonly member: string | null
}

const unpack = async (
  packed: Packed,
  what: string,
  take: (bytes: Uint8Array) => void,
  signal: AbortSignal,
): Promise<void> => {
  const unpacker = new PrintUnpacker(packed.member, take)
  await eachSlice(packed, what, signal, (slice) => unpacker.push(slice))
  const ended = unpacker.finish()
  if (!ended.ok) throw refusedFile(packed.called, ended.refusal)
}

const eachSlice = async (
  { file, called }: Pick<Packed, 'file' | 'called'>,
  what: string,
  signal: AbortSignal,
  take: (slice: Uint8Array) => void,
): Promise<void> => {
  const progress = new Progress(process.stderr)
  try {
    const handle = await open(file, 'r')
    try {
      const { size } = await handle.stat()
      let bytes = 0
      await readAhead(handle.fd, true, (slice) => {
        if (signal.aborted) throw cancelled(called)
        bytes += slice.length
        take(slice)
        progress.at(bytes, size, what)
        return true
      })
      if (signal.aborted) throw cancelled(called)
    } finally {
      await handle.close()
    }
  } catch (error) {
    throw faultOfFile(error, called)
  } finally {
    progress.end()
  }
}

const cancelled = (file: string): Fault =>
  new Fault(exitCode.cancelled, {
    code: 'cancelled',
    message: 'Cancelled. Nothing was kept.',
    file,
  })

const writeFully = (fd: number, bytes: Uint8Array): void => {
  for (let at = 0; at < bytes.length; ) at += writeSync(fd, bytes, at)
}
