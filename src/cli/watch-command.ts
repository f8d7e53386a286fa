import { stat } from 'node:fs/promises'
import { exitCode, Fault } from './fault.ts'
import { parseConfidence } from './judged.ts'
import { parseFileOptions } from './parse-file-options.ts'
import { parsePrinter } from './parse-printer.ts'
import { faultOfFile } from './read-input.ts'
import { run } from './run.ts'
import type { Terminal } from './terminal.ts'
import { Watch, type WatchText } from './watch.ts'
import { noChoiceAmong } from './which-check.ts'

/** `reelreckon watch`: reads prints as they arrive, and keeps their verdicts current. */
export const watchCommand = (folder: string, typed: WatchText): Promise<void> =>
  run(false, async (terminal: Terminal) => {
    // What was typed wrong is told before anything is read.
    parseFileOptions(typed)
    parsePrinter(typed)
    parseConfidence(typed.confidence)
    if (typed.reel !== undefined) noChoiceAmong(typed)
    await checkFolder(folder)
    const watch = new Watch(terminal, folder, typed)
    const controller = new AbortController()
    const end = (): void => controller.abort()
    process.on('SIGINT', end)
    process.on('SIGTERM', end)
    try {
      await watch.run(controller.signal)
    } finally {
      process.off('SIGINT', end)
      process.off('SIGTERM', end)
    }
    return { text: '', exit: 0 }
  })

const checkFolder = async (folder: string): Promise<void> => {
  try {
    if ((await stat(folder)).isDirectory()) return
  } catch (error) {
    throw faultOfFile(error, folder)
  }
  throw new Fault(exitCode.unreadable, {
    code: 'no_folder',
    message: 'This is a file. Give the folder that prints arrive in, or check the file by itself.',
    file: folder,
  })
}
