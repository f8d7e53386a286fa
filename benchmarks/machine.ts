import { readFileSync } from 'node:fs'
import { arch, cpus, platform, totalmem } from 'node:os'
import { timed } from './timed.ts'

/** Where and with what it was measured; nothing that names a computer or a person. */
export interface Machine {
  readonly date: string
  readonly cpu: string
  readonly cores: number
  readonly memory_GiB: number
  readonly system: string
  readonly versions: string
}

const versionIn = (file: string): string => JSON.parse(readFileSync(file, 'utf8')).version

const firstLine = (text: string): string => text.split('\n', 1)[0] ?? ''

/** Called in the project's root. */
export function describeMachine(): Machine {
  return {
    date: new Date().toISOString().slice(0, 10),
    cpu: cpus()[0]?.model ?? 'unknown processor',
    cores: cpus().length,
    memory_GiB: Math.round(totalmem() / 2 ** 30),
    system: `${platform()} ${arch()}`,
    versions: [
      `reelreckon ${versionIn('package.json')}`,
      `Node ${process.versions.node}`,
      `gcode-parser ${versionIn('node_modules/gcode-parser/package.json')}`,
      firstLine(timed(['md5sum', '--version']).output),
    ].join(', '),
  }
}
