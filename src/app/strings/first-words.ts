/** Words of the first run, from an empty shelf to the first verdict. */
export const firstWords = {
  none: 'No reels yet.',
  toVerdict: 'Three steps to the first verdict.',
  drop: 'Drop a print',
  draws: (file: string, lengths_mm: readonly number[]): string =>
    `${file} draws ${lengths_mm
      .map((length) => (length / 1000).toFixed(1))
      .join(' and ')} m of filament.`,
  tell: 'Tell of one reel',
  maker: 'Make: who made it',
  makerHint: 'As on the box. With the material it is a make, as Kittiwake PLA.',
  material: 'Material',
  materialHint: 'As PLA, PETG or ABS.',
  materials: ['PLA', 'PETG', 'ABS', 'ASA', 'TPU', 'PA', 'PC'],
  label: 'Net mass on its label',
  labelHint: 'As 1 kg, 750 g or 2.2 lb.',
  gross: 'Weigh it: what does the scale show with the reel on it?',
  grossHint: 'As 422 g or 14.9 oz, carrier and all.',
  grossNeeded: 'Weigh it: without that nobody knows what a part-used reel holds.',
  needed: (label: string): string => `${label}: fill this in.`,
  put: 'Put it on the shelf',
  isOn: (id: string): string => `Reel ${id} is on the shelf. Write ${id} on it.`,
  read: 'Read the verdict',
  readHint: 'Enough, close or short, and the chance that the print finishes.',
  readyHint: 'It stands on the sheet Check.',
  or: 'Or first see what it is like:',
  demoApart: 'An invented bench, kept apart from your own ledger, and removed with one press.',
  demoPrints: 'Or take a print of the demo bench:',
} as const
