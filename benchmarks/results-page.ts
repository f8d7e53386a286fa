/** What stands under a heading of a page, the heading with it, up to the next one of its rank. */
export const sectionOf = (page: string, heading: string): string | undefined => {
  const from = page.indexOf(`${heading}\n`)
  if (from < 0) return undefined
  const after = page.indexOf('\n## ', from + heading.length)
  return page.slice(from, after < 0 ? page.length : after).trimEnd()
}

/** A page with this section in the place of the one it had under this heading, or after all others. */
export const withSection = (page: string, heading: string, section: string): string => {
  const had = sectionOf(page, heading)
  if (had === undefined) return `${page.trimEnd()}\n\n${section}\n`
  const from = page.indexOf(had)
  return `${page.slice(0, from)}${section}${page.slice(from + had.length)}`
}

/** A page with the sections of an older one that it does not have itself, after its own. */
export const withOthersOf = (page: string, older: string): string =>
  [...older.matchAll(/^## .*$/gm)]
    .map(([heading]) => heading)
    .filter((heading) => sectionOf(page, heading) === undefined)
    .reduce((kept, heading) => withSection(kept, heading, sectionOf(older, heading)!), page)
