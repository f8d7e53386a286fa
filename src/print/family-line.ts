import type { FirmwareFamily } from './firmware-family.ts'
import { type Command, lexLine } from './lex-line.ts'
import { isListedM } from './listed-codes.ts'

/** One line as the firmware families cut it into commands. */
export interface FamilyLine {
  /** The commands of each family, in the order of the families. */
  readonly perFamily: readonly (readonly Command[])[]
  /** The commands of every different cut. */
  readonly all: readonly Command[]
  /** The only command, where the line has one and all families cut it alike. */
  readonly alone: Command | undefined
}

/** Cuts a line as each family would; families that cut alike share the work. */
export function familyLine(text: string, families: readonly FirmwareFamily[]): FamilyLine {
  const lexed = new Map<string, Command[]>()
  const perFamily = families.map((family) => {
    const key = `${family.exponents}${family.bracketEndsLine}${family.severalCommands}`
    let commands = lexed.get(key)
    if (commands === undefined) {
      commands = lexLine(text, family)
      lexed.set(key, commands)
    }
    return commands
  })
  const first = perFamily[0] as Command[]
  const only = first.length === 1 ? first[0] : undefined
  const alike = only !== undefined && [...lexed.values()].every((list) => isSame(list, only))
  return { perFamily, all: [...lexed.values()].flat(), alone: alike ? only : undefined }
}

function isSame(list: readonly Command[], alone: Command): boolean {
  const only = list[0] as Command
  if (only === alone) return true
  if (list.length !== 1 || only.code !== alone.code || only.letter !== alone.letter) return false
  if (only.words.size !== alone.words.size) return false
  for (const [letter, word] of alone.words) {
    const other = only.words.get(letter)
    if (other === undefined || other.value !== word.value || word.list !== undefined) return false
  }
  return true
}

const drawG: ReadonlySet<number> = new Set([0, 1, 2, 3, 5, 10, 11, 20, 21, 90, 91, 92])

/** Whether a command can touch the draw; every tool command and name may. */
export function touchesDraw({ letter, code }: Command): boolean {
  if (letter === 'G') return drawG.has(code)
  return letter !== 'M' || isListedM(code)
}
