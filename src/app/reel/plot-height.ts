/** Of the drawing of a life, CSS pixels: its room is kept while what draws it is fetched. */
export const plotHeight = 260
