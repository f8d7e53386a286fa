/** The name of a make of a maker, where it may have been told with the maker's: `Kittiwake PLA` is PLA. */
export const withoutMaker = (name: string, maker: string): string => {
  const [whole, whose] = [name.trim(), maker.trim()]
  const begins = whole.toLowerCase().startsWith(`${whose.toLowerCase()} `)
  return begins ? whole.slice(whose.length).trim() : whole
}
