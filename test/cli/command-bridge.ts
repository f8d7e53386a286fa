import { fork } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { type MessagePort, workerData } from 'node:worker_threads'
import type { CliAsked, CliRun } from './run-cli.ts'

// A thread that asks the host of the commands while the thread of the tests stands still for the answer.

const { port, answered, env } = workerData as {
  readonly port: MessagePort
  readonly answered: Int32Array<SharedArrayBuffer>
  readonly env: Readonly<Record<string, string>>
}

const host = fork(fileURLToPath(new URL('./command-host.ts', import.meta.url)), {
  env,
  execArgv: [],
  stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
})
const tell = (run: CliRun): void => {
  port.postMessage(run)
  Atomics.store(answered, 0, 1)
  Atomics.notify(answered, 0)
}
host.on('message', (run: CliRun) => tell(run))
host.on('exit', (code, signal) => {
  tell({ exit: null, out: '', err: `The host of the commands ended: ${signal ?? code}.` })
})
port.on('message', (asked: CliAsked) => host.send(asked))
