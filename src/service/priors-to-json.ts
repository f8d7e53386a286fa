import type { PriorsJson } from '../contract/index.ts'
import type { PriorListed } from './shelf-priors.ts'

/** What the shelf believes beforehand, on the wire. */
export const priorsToJson = (priors: readonly PriorListed[]): PriorsJson => ({
  priors: priors.map(({ key, prior: { unit, value, u, source }, own, learnt }) => ({
    key,
    unit,
    usual: { value, u },
    own: own ?? null,
    learnt_factor: learnt?.factor ?? null,
    source: `${source.where} (${source.standing})`,
  })),
})
