import {
  type CatalogueRowJson,
  type FactJson,
  idLength,
  type LedgerRecord,
  makeId,
  type OpenedJson,
} from '../../src/contract/index.ts'
import type { BenchScale, HiddenPrinter } from '../bench.ts'
import { Dice } from './dice.ts'

/** A reel of the story with what is truly on it. */
export interface TrueReel {
  readonly id: string
  readonly make: string
  readonly tare_g: number
  readonly linearDensity_gPerM: number
  net_g: number
}

type Own<T> = T extends unknown ? Omit<T, 'id' | 'changed_at'> : never
type Said<T> = T extends unknown ? Omit<T, 'id' | 'at' | 'recorded_at'> : never

/** Spread of one print about its printer: what the shelf's priors take it for. */
const feedOfOneDraw = 0.003
const startOfOneDraw_mm = 30
const repeatability_g = 0.3

/**
 * Lives through the bench's Saturdays and writes down what people do there: the facts as they saw
 * them, over a truth that they did not see. The same at every run.
 */
export class Keeper {
  readonly rows: CatalogueRowJson[] = []
  readonly facts: FactJson[] = []
  readonly dice: Dice
  #at = ''

  constructor(seed: number) {
    this.dice = new Dice(seed)
  }

  /** Facts from now on happen at this moment. */
  moment(at: Date): void {
    this.#at = at.toISOString()
  }

  newId(length: number = idLength.row): string {
    return makeId(length, () => this.dice.byte())
  }

  /** A row of the catalogue; its id. */
  row(row: Own<Exclude<CatalogueRowJson, { kind: 'priors' }>>): string {
    const id = this.newId()
    const { kind, ...rest } = row
    this.rows.push({ kind, id, changed_at: this.#at, ...rest } as CatalogueRowJson)
    return id
  }

  /** A fact; its id. */
  say(fact: Said<FactJson>): string {
    const id = this.newId(idLength.fact)
    const { kind, ...rest } = fact
    this.facts.push({ kind, id, at: this.#at, recorded_at: this.#at, ...rest } as FactJson)
    return id
  }

  /** What a scale shows of a load. */
  reading(load_g: number, { step_g }: Pick<BenchScale, 'step_g'>): number {
    const shown = load_g + this.dice.normal(repeatability_g * step_g)
    return Number((Math.round(shown / step_g) * step_g).toFixed(3))
  }

  opened(reel: TrueReel, fact: Omit<Said<OpenedJson>, 'kind' | 'reel' | 'make'>): void {
    this.say({ kind: 'opened', reel: reel.id, make: reel.make, ...fact })
  }

  /** What a printer takes off a reel for a length asked, g. */
  taken(
    { linearDensity_gPerM }: TrueReel,
    length_mm: number,
    { feedFactor, startAllowance_mm }: HiddenPrinter,
  ): number {
    const factor = feedFactor * (1 + this.dice.normal(feedOfOneDraw))
    const start = Math.max(0, startAllowance_mm + this.dice.normal(startOfOneDraw_mm))
    return (linearDensity_gPerM * (factor * length_mm + start)) / 1000
  }

  /** Rows first, then facts in order of time. */
  records(): readonly LedgerRecord[] {
    const facts = this.facts.toSorted((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)))
    return [...this.rows, ...facts]
  }
}
