import { runCli } from '../cli/run-cli.ts'
import { startServe } from '../cli/start-serve.ts'
import { type ServedApp, serveApp } from './serve-app.ts'

/** Asks for a pass-phrase even at this machine, as it goes by a name. */
export const serveLocked = async (): Promise<ServedApp> => {
  const empty = await serveApp('empty')
  await empty.end()
  const input = 'gulls sleep on one leg\n'
  const set = runCli(['serve', '--new-pass-phrase', '--data', empty.data], { input })
  if (set.exit !== 0) throw new Error(set.err)
  const { port, end } = await startServe(['--name', 'bench.harbour'], empty.data)
  return { ...empty, origin: `http://127.0.0.1:${port}`, end: () => end() }
}
