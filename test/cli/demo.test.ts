import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { situations } from '../../demo/situations.ts'

test('the demo tells its day with the real command line', () => {
  const script = fileURLToPath(new URL('../../demo/run.ts', import.meta.url))
  const { status, stdout, stderr } = spawnSync(process.execPath, [script], { encoding: 'utf8' })
  expect([status, stderr]).toEqual([0, ''])
  for (const { name } of situations.slice(2)) expect(stdout).toContain(`-- ${name}.`)
  expect(stdout).toContain('ENOUGH, chance')
  expect(stdout).toContain('CLOSE, chance')
  expect(stdout).toContain('SHORT, chance')
  expect(stdout).toMatch(/Sure calls that were wrong: 0 of \d+\./)
})
