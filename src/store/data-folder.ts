import { homedir } from 'node:os'
import { posix, win32 } from 'node:path'

/** Name of the ledger's file in its folder. */
export const ledgerName = 'ledger.sqlite'

/** What the place of the data folder depends on. */
export interface Surroundings {
  readonly platform: string
  readonly env: Readonly<Record<string, string | undefined>>
  readonly home: string
}

/**
 * The folder a person's ledger is in unless another is named: where the platform keeps data of
 * programs. Nothing is created.
 *
 * - macOS: `~/Library/Application Support/Reelreckon`
 * - Windows: `Reelreckon` in `%LOCALAPPDATA%`, which does not roam: a ledger must stay on this machine
 * - else: `reelreckon` in `$XDG_DATA_HOME`, if that is an absolute path, or in `~/.local/share`
 *
 * @see XDG Base Directory Specification 0.8: a relative path is to be ignored
 */
export const dataFolder = (around: Surroundings = here()): string => {
  const { platform, env, home } = around
  if (platform === 'darwin') return posix.join(home, 'Library/Application Support/Reelreckon')
  if (platform === 'win32') {
    const local = env['LOCALAPPDATA'] || win32.join(home, 'AppData', 'Local')
    return win32.join(local, 'Reelreckon')
  }
  const named = env['XDG_DATA_HOME'] ?? ''
  return posix.join(
    posix.isAbsolute(named) ? named : posix.join(home, '.local/share'),
    'reelreckon',
  )
}

const here = (): Surroundings => ({
  platform: process.platform,
  env: process.env,
  home: homedir(),
})
