const people = new Intl.NumberFormat('en-GB')
const reels = (count: number): string => (count === 1 ? '1 reel' : `${people.format(count)} reels`)

/** Words of the shelf sheet. */
export const shelfWords = {
  material: (name: string | null): string => name ?? 'material not known',
  reels: 'Reels',
  noShelf: 'The shelf can not be shown',
  fetching: 'Fetching the shelf …',
  find: 'Find by words: material, colour, make, place',
  example: 'petg coral',
  allMaterials: 'all materials',
  allColours: 'all colours',
  allPlaces: 'all places',
  clears: (print: string): string => `For ${print}`,
  likely: { any: 'all reels', maybe: 'enough or close', enough: 'enough' },
  shownAs: 'Shown as',
  views: { discs: 'discs', list: 'list' },
  count: (found: number, all: number): string =>
    found === all ? reels(all) : `${people.format(found)} of ${reels(all)}`,
  more: (count: number): string => `Show ${people.format(count)} more`,
  /** What is not drawn yet. @param shelves - by the name of the material; null where they are not drawn by material */
  behind: (
    count: number,
    shelves: readonly (readonly [name: string | null, count: number])[] | null,
  ): string => {
    const of = (shelves ?? []).map(
      ([name, some]) => `${shelfWords.material(name)} ${people.format(some)}`,
    )
    return `${people.format(count)} more ${count === 1 ? 'reel' : 'reels'}${of.length === 0 ? '' : `: ${of.join(', ')}`}.`
  },
  shelfOf: (name: string | null, count: number): string =>
    `${shelfWords.material(name)} · ${reels(count)}`,
  noColour: 'no colour told',
  noMake: 'not known',
  unreckoned: 'not reckoned',
  never: 'never',
  doubted: 'a weighing is in doubt',
  list: 'Reels of the shelf',
  columns: {
    id: 'Reel',
    colour: 'Colour',
    net: 'Net',
    length: 'Length',
    material: 'Material',
    make: 'Make',
    place: 'Place',
    weighed: 'Weighed',
    verdict: 'For the print',
  },
} as const
