import type { FactJson } from './fact-json.ts'

/** What a fact refers to, by the columns of the table of facts. */
export interface References {
  readonly reel: string | undefined
  readonly make: string | undefined
  readonly printer: string | undefined
  readonly scale: string | undefined
  readonly person: string | undefined
  readonly print: string | undefined
  readonly voids: string | undefined
  readonly instead: string | undefined
}

/** What a fact names that should be there and is not, by what it is. */
export const whatIsMissing: Readonly<Record<keyof References, string>> = {
  reel: 'a reel that nobody has opened',
  make: 'a make that the catalogue does not have',
  printer: 'a printer that the catalogue does not have',
  scale: 'a scale that the catalogue does not have',
  person: 'a person whom the catalogue does not have',
  print: 'a print that was never kept',
  voids: 'a fact that was never written down',
  instead: 'a fact that was never written down',
}

export const referencesOf = (fact: FactJson): References => ({
  reel: 'reel' in fact ? fact.reel : undefined,
  make: 'make' in fact ? fact.make : undefined,
  printer: 'printer' in fact ? fact.printer : undefined,
  scale: scaleOf(fact),
  person: fact.by,
  print: 'print' in fact ? fact.print : undefined,
  voids: 'voids' in fact ? fact.voids : undefined,
  instead: 'instead' in fact ? fact.instead : undefined,
})

/** No fact has more than one weighing. */
const scaleOf = (fact: FactJson): string | undefined => {
  if ('weighing' in fact) return fact.weighing.scale
  if (fact.kind === 'opened') return fact.gross_when_new?.scale
  return fact.kind === 'measured' ? fact.cut?.weighing.scale : undefined
}
