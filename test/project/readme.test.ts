import { spawnSync } from 'node:child_process'
import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, expect, test } from 'vitest'
import { knob } from '../../demo/prints/knob.ts'
import { folderOfPrints, runCli } from '../cli/run-cli.ts'

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const readme = readFileSync(at('README.md'), 'utf8')
const scratch = at('dist/readme-snippet.ts')

afterAll(() => rmSync(scratch, { force: true }))

test('the picture of a verdict is what the command prints', () => {
  const block = /```\n\$ reelreckon (.*)\n([\s\S]*?)```/.exec(readme)
  const [, words = '', picture = ''] = block ?? []
  const { out } = runCli(words.split(' '), { cwd: folderOfPrints() })
  expect(out.startsWith(picture.trimEnd())).toBe(true)
})

test("the shelf's commands run one after the other", () => {
  const section = readme.slice(readme.indexOf('## Your shelf, in the terminal'))
  const lines = /```sh\n([\s\S]*?)```/.exec(section)?.[1]?.trim().split('\n') ?? []
  expect(lines).toHaveLength(4)
  const folder = folderOfPrints()
  copyFileSync(join(folder, 'knob.gcode'), join(folder, 'your-print.gcode'))
  const env = {
    ...process.env,
    REELRECKON_DATA: join(folder, 'data'),
    MAIN: at('dist/bundle/main.js'),
  }
  for (const line of lines) {
    const typed = line.replace('npx reelreckon', `"${process.execPath}" "$MAIN"`)
    const { status, stderr } = spawnSync('sh', ['-c', typed], {
      cwd: folder,
      env,
      encoding: 'utf8',
    })
    expect([status, stderr]).toEqual([0, ''])
  }
})

test('the library example runs and judges', () => {
  const snippet = /```ts\n([\s\S]*?)```/.exec(readme)?.[1] ?? ''
  const bytes = `const bytes = new TextEncoder().encode(${JSON.stringify(knob.write())})\n`
  const show = snippet.replace(/\n\}\s*$/, '\n  console.log(verdict, chance)\n}\n')
  writeFileSync(scratch, bytes + show)
  const { stdout, stderr } = spawnSync(process.execPath, [scratch], { encoding: 'utf8' })
  expect(stderr).toBe('')
  expect(stdout).toMatch(/^enough 0\.9\d+|^close 0\.\d+/)
})

test('the commands are scripts of the package, and the first serves the app', () => {
  const { scripts } = JSON.parse(readFileSync(at('package.json'), 'utf8')) as {
    scripts: Record<string, string>
  }
  expect(readme).toContain('npm ci && npm start')
  expect(readme).toContain('npm run demo')
  expect(readme).toContain('npm ci && npm test')
  expect(scripts['start']).toContain('serve --demo --open')
  expect(scripts).toHaveProperty('demo')
  expect(scripts).toHaveProperty('test')
})
