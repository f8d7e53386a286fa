import { codePart, firstCommand, lexWords, plainNumber, readNamed } from './twin-line.ts'
import type { Line } from './twin-text.ts'

export const loopDepthBudget = 8
export const loopBodyBudget: number = 8 * 1024 * 1024
export const executedLineBudget = 16_000_000
/** What beginning a pass costs besides its lines. */
const passCost = 16

/** A line to be run, or the place where reading stops for good. */
export type Step =
  | { readonly kind: 'line'; readonly line: Line }
  | { readonly kind: 'refusal'; readonly code: string; readonly line: number }

type Node =
  | Step
  | { readonly kind: 'loop'; readonly times: number; readonly body: Node[]; closing?: Line }

/** How often an opening line asks for its body; nothing when the line opens no loop. */
export const loopOpening = (text: string): number | undefined => {
  if (firstCommand(text) === 'M808') {
    const tail = codePart(text).replace(/^[Mm][ \t]*[0-9.]+/, '')
    const count = lexWords(tail, false).findLast((word) => word.letter === 'L')
    return count && Math.trunc(count.values[0] ?? 0)
  }
  const named = readNamed(text)
  if (named?.name !== 'SDCARD_LOOP_BEGIN') return undefined
  return Math.trunc(plainNumber(named.values.get('COUNT')) ?? 0)
}

export const closesLoop = (text: string): boolean =>
  (firstCommand(text) === 'M808' && loopOpening(text) === undefined) ||
  readNamed(text)?.name === 'SDCARD_LOOP_END'

/** What replaying costs: the lines of every pass but the first, and sixteen for each such pass. */
const replayed = (nodes: readonly Node[]): number =>
  nodes.reduce((sum, node) => {
    if (node.kind !== 'loop') return sum
    const within = replayed(node.body)
    const pass = within + lineCount(node.body) + 1 + passCost
    return sum + within + pass * (node.times - 1)
  }, 0)

/** Lines as they stand in the file. */
const lineCount = (nodes: readonly Node[]): number =>
  nodes.reduce(
    (sum, node) => sum + (node.kind === 'loop' ? lineCount(node.body) + (node.closing ? 1 : 0) : 1),
    0,
  )

const flatten = (nodes: readonly Node[]): Step[] => {
  const steps: Step[] = []
  for (const node of nodes) {
    if (node.kind !== 'loop') {
      steps.push(node)
      continue
    }
    const body = flatten(node.body)
    for (let time = 0; time < node.times; time++) {
      for (const step of body) steps.push(step)
      if (node.closing) steps.push({ kind: 'line', line: node.closing })
    }
  }
  return steps
}

const size = (lines: readonly Line[], from: number, to: number): number =>
  lines.slice(from, to).reduce((sum, line) => sum + line.text.length + 1, 0)

/** All lines in the order in which they are run, loops written out. */
export const writeOutLoops = (lines: readonly Line[]): readonly Step[] => {
  const top: Node[] = []
  const open: { times: number; line: number; into: Node[]; body: Node[] }[] = []
  const here = (): Node[] => open.at(-1)?.body ?? top
  const stop = (code: string, line: number): void => {
    here().push({ kind: 'refusal', code, line })
  }

  for (const line of lines) {
    const times = loopOpening(line.text)
    if (times !== undefined) {
      here().push({ kind: 'line', line })
      if (times < 1) {
        stop('endless_loop', line.number)
        break
      }
      if (open.length === loopDepthBudget) {
        stop('loops_too_deep', line.number)
        break
      }
      const body: Node[] = []
      open.push({ times, line: line.number, into: here(), body })
    } else if (closesLoop(line.text)) {
      const loop = open.pop()
      if (!loop) here().push({ kind: 'line', line })
      else if (loop.times > 1 && size(lines, loop.line, line.number - 1) > loopBodyBudget) {
        loop.into.push({ kind: 'refusal', code: 'loop_too_long', line: loop.line })
      } else loop.into.push({ kind: 'loop', times: loop.times, body: loop.body, closing: line })
    } else here().push({ kind: 'line', line })
  }

  // What was still open has run once; the outermost that wanted more is the one to name.
  const unclosed = open.find((loop) => loop.times > 1)
  const refused = (nodes: readonly Node[]): boolean => nodes.at(-1)?.kind === 'refusal'
  if (unclosed && !refused(here())) stop('open_loop', unclosed.line)
  for (const loop of open.toReversed()) {
    loop.into.push({ kind: 'loop', times: 1, body: loop.body })
  }
  return replayed(top) > executedLineBudget
    ? [{ kind: 'refusal', code: 'too_many_lines', line: lines.length }]
    : flatten(top)
}
