import type { ReelHeadJson, ReelWorkingJson } from '../../contract/index.ts'

/** What reels are called by, and the words of a reel's sheet. */
export const reelWords = {
  name: (reel: ReelHeadJson | null): string =>
    reel === null ? 'the reel' : ['reel', reel.id, reel.colour].filter(Boolean).join(' '),
  colourAndMake: ({ colour, make }: ReelHeadJson): string =>
    [colour, make ?? 'make not known'].filter(Boolean).join(', '),
  states: { new: 'new', 'part-used': 'part-used', empty: 'empty', retired: 'retired' },
  title: (id: string): string => `Reel ${id}`,
  came: 'Came',
  noReel: (id: string): string => `Reel ${id} can not be shown`,
  at: (place: string): string => `stands at: ${place}`,
  headings: ['Quantity', 'Value', 'Rests on'],
  net: 'net',
  length: 'length',
  tare: 'tare',
  linearDensity: 'linear density',
  unreckoned: 'not reckoned',
  restsOn: (one: ReelWorkingJson['rests'][number] | undefined): string =>
    one === undefined ? '' : one.guessed ? `guessed: ${one.on}` : one.on,
  next: 'To know it better:',
  facts: 'Its life, latest first',
  voided: (reason: string): string => `does not hold: ${reason}`,
} as const
