import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'

const notOurs = new Set(['node_modules', 'dist', '.git', 'tmp'])

const walk = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (notOurs.has(entry.name)) return []
    const path = join(folder, entry.name)
    return entry.isDirectory() ? walk(path) : [path]
  })

/**
 * Files of the project, by their path from its root: what git tracks or would take, or all but
 * what is built and installed where there is no git.
 */
export function projectFiles(): readonly string[] {
  try {
    const list = execFileSync('git', ['ls-files', '-z', '-co', '--exclude-standard'], {
      encoding: 'utf8',
    })
    return list.split('\0').filter((path) => path !== '' && existsSync(path))
  } catch {
    return walk('.')
  }
}
