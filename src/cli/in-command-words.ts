import type { Refusal } from '../units/index.ts'

type Told = Pick<Refusal, 'code' | 'message' | 'expected' | 'received'>

const accepts = (): string => 'Repeat with --accept then.'
const story = (): string =>
  'Its command is put-right; reelreckon reel show has the id of each fact.'
const addsRow =
  (kind: string): Way =>
  ({ expected }) =>
    expected === undefined ? `See reelreckon ${kind} add --help.` : undefined

type Way = (told: Told) => string | undefined

/** How what a refusal or a finding asks for is done on the command line, by its code. */
const ways: Readonly<Record<string, Way>> = {
  carrier_size_needed: () => 'Say it with --label, as --label 3kg.',
  scale_needed: () => 'Name it with --scale.',
  printer_needed: ({ expected }) =>
    expected === undefined
      ? "Do it with reelreckon printer add 'left printer'."
      : 'Name it with --printer.',
  reel_needed: () => 'Name it with --reel.',
  tool_twice: () => "The second is told with --tool 'T0: reel=ID, after-layer=120'.",
  running_tool_twice: () =>
    "The second is told behind it, as 'T0=K7RMY, T0=P3QX6, after-layer=17'.",
  tool_needed: () => "It is told with --tool 'T0: reel=ID, after-layer=120'.",
  tool_taken: () => "The later one is told with --tool 'T0: reel=ID, after-layer=120'.",
  run_dry_needs_stop: () =>
    "Say it with --stopped-at, as --stopped-at layer=120, or with --tool 'T0: reel=ID, after-layer=120'.",
  tool_without_reel: ({ expected }) =>
    expected === undefined
      ? 'Name it with --reel ID.'
      : `Name it with --tool '${expected}: reel=ID'.`,
  firmware_needed: () => 'Say it with --firmware, or once with reelreckon printer change.',
  no_table: () => 'That is told with --delimiter.',
  make_unknown: () =>
    'A new one is set up with --maker NAME --material NAME, where a reel or a make is added.',
  make_differs: () => 'A make is changed with reelreckon make change.',
  printer_unknown: addsRow('printer'),
  scale_unknown: addsRow('scale'),
  person_unknown: addsRow('person'),
  run_dry_surprising: accepts,
  drew_more_than_held: accepts,
  measure_surprising: accepts,
  weighed_since: ({ message }) =>
    message.includes('say when it was')
      ? "When it was is told with --at '2026-03-01 19:30'; it is accepted with --accept."
      : 'It is accepted with --accept.',
  // Not of a question about a moment before the reel came.
  before_opened: ({ expected }) => (expected === undefined ? undefined : story()),
  reel_retired: story,
  reel_empty: story,
  running_unknown: () => 'That is done with reelreckon slate add FILE.',
  fact_unknown: () => 'They stand in reelreckon reel show ID and reelreckon make show MAKE.',
  reel_unknown: () => 'See reelreckon reel list.',
  families_differ: () => 'Answer --firmware with yours.',
  e_looks_like_mm3: () => 'Answer --e-unit mm3, or --e-unit mm.',
  e_looks_relative: () => 'Answer --e-mode relative, or --e-mode absolute.',
  e_looks_made_for_other_diameter: () =>
    'Answer --diameter with what you print with, or --made-for with what the file was made for.',
  planned_change: () => "check --stretch judges one reel's part.",
}

/**
 * A message with how what it asks for is done on the command line: the sentence itself is every
 * surface's. A list below it stays below.
 */
export const inCommandWords = (told: Told): string => {
  const { message } = told
  const way = ways[told.code]?.(told)
  if (way === undefined) return message
  const [first = '', ...list] = message.split('\n')
  // A sentence that ends in its list goes on behind it.
  return /[.?!]$/.test(first) || list.length === 0
    ? [`${first} ${way}`, ...list].join('\n')
    : [message, way].join('\n')
}
