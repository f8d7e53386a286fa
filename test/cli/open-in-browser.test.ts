import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { openerOf } from '../../src/cli/open-in-browser.ts'
import { startServe } from './start-serve.ts'

test.each([
  ['darwin', {}, ['open']],
  ['win32', {}, ['cmd', '/c', 'start', '']],
  ['linux', { DISPLAY: ':0' }, ['xdg-open']],
  ['linux', { WAYLAND_DISPLAY: 'wayland-0' }, ['xdg-open']],
  ['linux', { DISPLAY: '' }, undefined],
  ['linux', {}, undefined],
] as const)('on %s with %j', (platform, env, opener) => {
  expect(openerOf(platform, env)).toEqual(opener)
})

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'reelreckon-open-'))

test.runIf(process.platform === 'linux')(
  'the opener is given the address; without one the server serves all the same',
  async () => {
    const folder = newFolder()
    const file = join(folder, 'opened')
    writeFileSync(join(folder, 'xdg-open'), `#!/bin/sh\necho "$1" > ${file}\n`, { mode: 0o755 })
    const env = { PATH: `${folder}:${process.env['PATH'] ?? ''}`, DISPLAY: ':0' }
    const { port, end } = await startServe(['--demo', '--open'], newFolder(), env)
    let opened = ''
    for (let tries = 0; tries < 100 && opened === ''; tries++) {
      // oxlint-disable-next-line no-await-in-loop -- looks again and again
      await setTimeout(50)
      try {
        opened = readFileSync(file, 'utf8').trim()
      } catch {
        // Not yet.
      }
    }
    expect(opened).toBe(`http://127.0.0.1:${port}/`)
    expect(await end()).toBe(0)

    const bare = await startServe(['--demo', '--open'], newFolder(), {
      PATH: newFolder(),
      DISPLAY: ':0',
    })
    await setTimeout(200)
    expect((await fetch(`http://127.0.0.1:${bare.port}/healthz`)).status).toBe(200)
    expect(await bare.end()).toBe(0)
  },
)
