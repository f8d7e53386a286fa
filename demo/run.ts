// Walks through a Saturday at the repair bench with the real command line: npm run demo
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { bench } from './bench.ts'
import { checkArguments } from './known-options.ts'
import { harbourLedgerText } from './ledger/harbour.ts'
import { demoPrints } from './prints/index.ts'
import { type Situation, situations, trueEnds } from './situations.ts'

const main = fileURLToPath(new URL('../dist/bundle/main.js', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'marrowick-'))

const say = (text: string): void => {
  process.stdout.write(`${text}\n`)
}

const quoted = (word: string): string => (/^[\w.,:=/-]+$/.test(word) ? word : `'${word}'`)

/** Runs the command, shows it as one would type it, and what it answers. */
const show = (words: readonly string[], lines = Infinity): number => {
  const run = spawnSync(process.execPath, [main, ...words], {
    cwd: folder,
    encoding: 'utf8',
    // The sheet as a terminal of today shows it, wherever this runs.
    env: { ...process.env, LC_ALL: 'C.UTF-8' },
  })
  say(`\n$ reelreckon ${words.map(quoted).join(' ')}`)
  const shown = run.stdout.split('\n').slice(0, lines).join('\n').trimEnd()
  say(shown + run.stderr)
  return run.status ?? -1
}

const verdicts: Readonly<Record<number, Situation['meant']>> = {
  0: 'enough',
  10: 'close',
  20: 'short',
}

/** Head of the sheet: the ring, the word, the chance and the first sentence. */
const headLines = 5

const words = ({ print, reels }: Situation): readonly string[] => [
  'check',
  print.fileName,
  ...checkArguments(
    print.truth.tools.map(({ tool }) => tool),
    reels,
  ),
]

const finishes = (situation: Situation): boolean => trueEnds(situation).every((end) => end.finishes)

const paragraph = (text: string): void => {
  say(`\n${text}`)
}

try {
  for (const { fileName, write } of demoPrints) writeFileSync(join(folder, fileName), write())
  say(`A day at ${bench.place}.`)
  say('Place, people, makers and printers are invented; the answers are not.')

  paragraph('What does the tackle box need? Its machine code tells.')
  show(['read', 'tackle-box.gcode', '--material', 'PLA'])

  const tally: { readonly situation: Situation; readonly call: Situation['meant'] }[] = []
  const judge = (situation: Situation, lines?: number): void => {
    const call = verdicts[show(words(situation), lines)]
    if (call === undefined) throw new Error(`${situation.name}: no verdict`)
    tally.push({ situation, call })
  }
  const [grey, white, ...rest] = situations
  if (grey === undefined || white === undefined) throw new RangeError('the story has no beginning')
  paragraph(
    'The grey reel weighs 422 g. Less 250 g for the carrier, as everyone says, that is 172 g:\nenough on paper.',
  )
  judge(grey)
  paragraph('Mags does as she is told. Under the bench lies an empty carrier of that make: 281 g.')
  show([...words(grey), '--tare-of-make', '281g'])
  paragraph('So not the grey reel. The white one?')
  judge(white, headLines)

  paragraph('The rest of the day, by their first lines.')
  for (const situation of rest) {
    paragraph(`-- ${situation.name}. ${situation.why}`)
    judge(situation, headLines)
  }

  paragraph('What would have happened, had they started all of them:\n')
  for (const { situation, call } of tally) {
    const end = finishes(situation) ? 'finishes' : 'runs dry'
    say(`  ${call.padEnd(7)} ${end.padEnd(9)} ${situation.name}`)
  }
  const wrong = tally.filter(
    ({ situation, call }) =>
      (call === 'enough' && !finishes(situation)) || (call === 'short' && finishes(situation)),
  )
  paragraph(
    `Sure calls that were wrong: ${wrong.length} of ${tally.filter(({ call }) => call !== 'close').length}.`,
  )
  say('A close call may well finish; that is why it says what to measure first.')
  paragraph(
    'For forty weeks they have kept a ledger. What is on every reel, from all of their weighings and\nprints together:',
  )
  writeFileSync(join(folder, 'marrowick.ndjson'), harbourLedgerText())
  const ledger = ['--ledger', 'marrowick.ndjson']
  show(['reel', 'list', ...ledger])
  paragraph('And which PLA could do a tackle box, without asking for a figure?')
  const ofShelf = ['check', 'tackle-box.gcode', '--material', 'PLA', '--printer', 'the Gull']
  show([...ofShelf, ...ledger])
  paragraph('And which reel for which of the prints that wait?')
  show(['import', 'marrowick.ndjson', '--data', 'shelf'], 1)
  show(['match', '--data', 'shelf'])
  say('\nHot parts burn, and a printer at work wants someone near.')
} finally {
  rmSync(folder, { recursive: true })
}
