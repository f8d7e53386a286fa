const people = new Intl.NumberFormat('en-GB')
const reels = (count: number): string => (count === 1 ? '1 reel' : `${people.format(count)} reels`)

/** Ids of materials are their names in lower case, except where trade usage has it otherwise. */
const nameOfMaterial = (id: string | null): string =>
  id === null
    ? 'material not known'
    : id.replace(/^[a-z]{2,4}(?=$|-)/, (name) => name.toUpperCase()).replaceAll('-', ' ')

/** Words of the shelf sheet. */
export const shelfWords = {
  material: (id: string | null): string => nameOfMaterial(id),
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
  /** What is not drawn yet. @param shelves - by material; null where they are not drawn by material */
  behind: (
    count: number,
    shelves: readonly (readonly [id: string | null, count: number])[] | null,
  ): string => {
    const of = (shelves ?? []).map(([id, some]) => `${nameOfMaterial(id)} ${people.format(some)}`)
    return `${people.format(count)} more ${count === 1 ? 'reel' : 'reels'}${of.length === 0 ? '' : `: ${of.join(', ')}`}.`
  },
  shelfOf: (id: string | null, count: number): string => `${nameOfMaterial(id)} · ${reels(count)}`,
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
