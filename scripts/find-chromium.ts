// The browser of the browser tests. As a program it prints where it is: node scripts/find-chromium.ts
import { spawnSync } from 'node:child_process'
import { accessSync, constants, statSync } from 'node:fs'
import { delimiter, join } from 'node:path'

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']
const usualPlaces = [
  '/usr/bin',
  '/usr/local/bin',
  '/snap/bin',
  '/usr/lib/chromium',
  '/opt/google/chrome',
]
const usualFiles = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]

const isProgram = (path: string): boolean => {
  try {
    accessSync(path, constants.X_OK)
    return statSync(path).isFile()
  } catch {
    return false
  }
}

/**
 * Looks for Chromium or Chrome: the variable CHROMIUM first, then the PATH, then the usual places.
 *
 * @param environment - default this process's
 * @param places - folders tried after the PATH
 * @returns the program's path; null when there is none
 */
export function findChromium(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  places: readonly string[] = usualPlaces,
): string | null {
  const chosen = environment['CHROMIUM']
  if (chosen !== undefined && chosen !== '') return isProgram(chosen) ? chosen : null
  const folders = [...(environment['PATH'] ?? '').split(delimiter).filter(Boolean), ...places]
  const files = folders.flatMap((folder) => names.map((name) => join(folder, name)))
  return [...files, ...(places === usualPlaces ? usualFiles : [])].find(isProgram) ?? null
}

const succeeds = (command: readonly string[]): boolean => {
  const [program = '', ...words] = command
  return spawnSync(program, words, { stdio: 'ignore' }).status === 0
}

/** Runs a command and returns what went wrong, or null. */
const complaintOf = (command: readonly string[]): string | null => {
  const [program = '', ...words] = command
  const { status, stderr, error } = spawnSync(program, words, {
    encoding: 'utf8',
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  })
  if (error !== undefined) return error.message
  return status === 0 ? null : (stderr.trim().split('\n').at(-1) ?? `status ${status}`)
}

/**
 * Finds Chromium, or installs Debian's package `chromium` with apt-get where that is allowed
 * without a question: as root, or through `sudo -n`. Takes a minute or two then.
 *
 * @param say - told what is being done
 * @returns the program's path
 * @throws Error whose message says what to do by hand
 */
export function ensureChromium(say: (sentence: string) => void = console.log): string {
  const found = findChromium()
  if (found !== null) return found
  const byHand = 'Install Chromium, or set the variable CHROMIUM to the program.'
  if (process.env['CHROMIUM']) throw new Error(`CHROMIUM does not name a program. ${byHand}`)
  if (!succeeds(['apt-get', '--version'])) {
    throw new Error(`The browser tests need Chromium, and there is none here. ${byHand}`)
  }
  const root = process.getuid?.() === 0
  if (!root && !succeeds(['sudo', '-n', 'true'])) {
    throw new Error(
      `The browser tests need Chromium; installing it takes root or sudo without a password. ${byHand}`,
    )
  }
  say('Chromium is not here: installing the package chromium with apt-get.')
  const sudo = root ? [] : ['sudo', '-n']
  const steps = [
    [...sudo, 'apt-get', 'update', '-qq'],
    [...sudo, 'apt-get', 'install', '-y', '-qq', '--no-install-recommends', 'chromium'],
  ]
  for (const step of steps) {
    const complaint = complaintOf(step)
    if (complaint !== null) {
      throw new Error(`${step.join(' ')} failed: ${complaint}. ${byHand}`)
    }
  }
  const installed = findChromium()
  if (installed === null) {
    throw new Error(`The package chromium was installed, but its program is not found. ${byHand}`)
  }
  say(`Chromium is installed: ${installed}`)
  return installed
}

if (import.meta.main) {
  try {
    console.log(ensureChromium())
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    process.exitCode = 1
  }
}
