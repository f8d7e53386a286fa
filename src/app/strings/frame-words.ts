/** Words of the frame round every sheet. */
export const frameWords = {
  product: 'Reelreckon',
  title: (sheet: string): string => `${sheet} – Reelreckon`,
  check: 'Check',
  shelf: 'Shelf',
  slate: 'Slate',
  bench: 'Bench',
  setUp: 'Set-up',
  sheets: 'Sheets',
  skip: 'To the sheet',
  writer: 'Written down by',
  nobody: 'nobody named',
  masses: 'Masses in',
  units: { g: 'grams', oz: 'ounces' },
  ground: 'Paper',
  grounds: { device: 'as the device', day: 'day', night: 'night' },
} as const
