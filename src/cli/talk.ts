import { createInterface } from 'node:readline/promises'
import type { Readable, Writable } from 'node:stream'

/** Somebody at the terminal who can be asked. */
export interface Talk {
  readonly say: (text: string) => void
  /** What was typed, or undefined where nobody answers any more. */
  readonly ask: (question: string) => Promise<string | undefined>
  readonly end: () => void
}

/** A talk over two streams: standard input and output, or stand-ins for them. */
export const talkOver = (input: Readable, output: Writable): Talk => {
  const lines = createInterface({ input, output })
  const answers = lines[Symbol.asyncIterator]()
  lines.on('SIGINT', () => lines.close())
  return {
    say: (text) => {
      output.write(text)
    },
    ask: async (question) => {
      output.write(question)
      const next = await answers.next()
      return next.done === true ? undefined : next.value.trim()
    },
    end: () => lines.close(),
  }
}

/** A talk with whoever runs the command; undefined in a pipe, where nobody answers. */
export const talkAtTerminal = (json: boolean): Talk | undefined =>
  !json && process.stdin.isTTY && process.stdout.isTTY
    ? talkOver(process.stdin, process.stdout)
    : undefined
