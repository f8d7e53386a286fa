import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { folderOfPrints } from './run-cli.ts'

const main = fileURLToPath(new URL('../../dist/bundle/main.js', import.meta.url))
const folder = folderOfPrints()

const ended = async (child: ReturnType<typeof spawn>): Promise<number | null> => {
  const [code] = (await once(child, 'close')) as [number | null]
  return code
}

test('Ctrl-C while waiting for standard input leaves 130 and no answer', async () => {
  const child = spawn(process.execPath, [main, 'read', '-'], { stdio: ['pipe', 'pipe', 'pipe'] })
  let out = ''
  let err = ''
  child.stdout.on('data', (text) => (out += String(text)))
  child.stderr.on('data', (text) => (err += String(text)))
  child.stdin.write('G28\n')
  // Long enough for the command to have begun to read.
  await new Promise((resolve) => setTimeout(resolve, 1000))
  child.kill('SIGINT')
  expect(await ended(child)).toBe(130)
  expect([out, err]).toEqual(['', '-: Cancelled.\n'])
})

test('Ctrl-C while many are read leaves 130, no answer, and says how many were read', async () => {
  const big = join(folder, 'big.gcode')
  const lines = Array.from({ length: 400_000 }, (_, k) => `G1 X${k % 200}.5 Y${k % 7} E${k}.5`)
  writeFileSync(big, `M82\nG1 Z0.2\n${lines.join('\n')}\n`)
  const words = ['read', ...Array.from({ length: 200 }, () => big)]
  const child = spawn(process.execPath, [main, ...words], { stdio: ['ignore', 'pipe', 'pipe'] })
  let out = ''
  let err = ''
  child.stdout.on('data', (text) => (out += String(text)))
  child.stderr.on('data', (text) => (err += String(text)))
  await new Promise((resolve) => setTimeout(resolve, 1500))
  child.kill('SIGINT')
  expect(await ended(child)).toBe(130)
  expect(out).toBe('')
  expect(err).toMatch(/^Cancelled when \d+ of 200 files were read\.\n$/)
})

test('a reader that goes away is no failure', () => {
  const file = join(folder, 'tackle-box.gcode')
  const { stdout, stderr } = spawnSync(
    'sh',
    ['-c', `"${process.execPath}" "${main}" read --json ${`"${file}" `.repeat(20)} | head -c 20`],
    { encoding: 'utf8' },
  )
  expect([stdout.length, stderr]).toEqual([20, ''])
})

test.runIf(existsSync('/dev/full'))('a full disk behind the output is told in a sentence', () => {
  for (const words of ['read knob.gcode', 'read knob.gcode --json']) {
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', `"${process.execPath}" "${main}" ${words} > /dev/full`],
      { encoding: 'utf8', cwd: folder },
    )
    expect([status, stderr]).toEqual([
      4,
      'What was to be said here can not be written (ENOSPC).\nCheck whether the disk is full. What was recorded stands.\n',
    ])
  }
})

/** Milliseconds, the best of several: what else the machine does only adds. */
const fastest = (words: readonly string[]): number => {
  const times = Array.from({ length: 12 }, () => {
    const begun = performance.now()
    spawnSync(process.execPath, words)
    return performance.now() - begun
  })
  return Math.min(...times)
}

test('--help takes less than twice as long as starting Node', () => {
  expect(fastest([main, '--help'])).toBeLessThan(2 * fastest(['-e', '0']))
})

test('--help of a command loads neither the layers nor the packages that it runs with', () => {
  const script = `
    const loaded = []
    const { registerHooks } = await import('node:module')
    registerHooks({ load: (url, context, next) => { loaded.push(url); return next(url, context) } })
    process.argv = [process.argv[0], 'reelreckon', 'check', '--help']
    process.on('exit', () => console.error(loaded.join('\\n')))
    await import(${JSON.stringify(`file://${main}`)})
  `
  const { stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
    encoding: 'utf8',
  })
  const files = stderr.split('\n').filter((url) => url.startsWith('file:'))
  const names = files.map((url) => /(?:part-)?([a-z-]+?)(?:-[\w-]{8})?\.js$/.exec(url)?.[1])
  expect(names).toContain('program')
  for (const layer of ['print', 'estimate', 'verdict', 'contract', 'store']) {
    expect(names).not.toContain(layer)
  }
  // A package that is joined in has its notice before it.
  const packages = files.flatMap((url) =>
    [...readFileSync(fileURLToPath(url), 'utf8').matchAll(/^\/\*! (\S+): /gm)].map(
      ([, name]) => name,
    ),
  )
  expect(packages).toEqual(['commander'])
})

test('Ctrl-C while a match is planned ends it at once with 130, the best plan so far and the ledger as it was', {
  timeout: 300_000,
}, async () => {
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-match-'))
  const env = { ...process.env, LC_ALL: 'C.UTF-8', REELRECKON_DATA: data }
  const run = (...words: readonly string[]): string => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...words], {
      cwd: folder,
      env,
      encoding: 'utf8',
    })
    expect([status, stderr]).toEqual([0, ''])
    // The first line says when it was written.
    return stdout.split('\n').slice(1).join('\n')
  }
  run('import', 'marrowick.ndjson')
  // More than is planned before a key can be pressed.
  run('slate', 'add', 'knob.gcode', '--name', 'knobs', '--copies', '100', '--material', 'PLA')
  const before = run('export')
  // Says when the thread that plans has begun: only then is Ctrl-C pressed.
  const tells =
    "data:text/javascript,process.once('worker',()=>process.stderr.write('planning\\n'))"
  const words = ['--import', tells, main, 'match', '--limit', '600min']
  const child = spawn(process.execPath, words, { env, stdio: ['ignore', 'pipe', 'pipe'] })
  let out = ''
  child.stdout.on('data', (text) => (out += String(text)))
  const end = ended(child)
  const [first] = (await once(child.stderr, 'data')) as [Buffer]
  expect(String(first)).toBe('planning\n')
  child.kill('SIGINT')
  expect(await end).toBe(130)
  const said = out.replaceAll(/\s+/g, ' ')
  expect(said).toContain('PRINTS HAVE THEIR REELS.')
  expect(said).toMatch(/You ended the search: [^.]*\. Keep it with --keep\./)
  expect(run('export')).toBe(before)
})
