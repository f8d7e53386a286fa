import { spawn } from 'node:child_process'

/** A program of the platform, and what it is told. */
type Opener = readonly [program: string, ...words: readonly string[]]

/**
 * What opens an address in the person's browser.
 *
 * @returns undefined where there is no desktop, as over a plain remote log-in
 */
export const openerOf = (
  platform: NodeJS.Platform,
  env: Readonly<Record<string, string | undefined>>,
): Opener | undefined => {
  if (platform === 'darwin') return ['open']
  // The empty word is the window's title, which an address would else be taken for.
  if (platform === 'win32') return ['cmd', '/c', 'start', '']
  const hasDesktop = [env['DISPLAY'], env['WAYLAND_DISPLAY']].some((name) => (name ?? '') !== '')
  return hasDesktop ? ['xdg-open'] : undefined
}

/** Tries to open an address; where that does not work the address has been said all the same. */
export const openInBrowser = (address: string): void => {
  const [program, ...words] = openerOf(process.platform, process.env) ?? []
  if (program === undefined) return
  const opener = spawn(program, [...words, address], { detached: true, stdio: 'ignore' })
  opener.once('error', () => undefined)
  opener.unref()
}
