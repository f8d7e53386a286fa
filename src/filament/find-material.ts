import { accept, type Outcome, refuse } from '../units/index.ts'
import type { Material } from './material.ts'
import { materials } from './materials.ts'

/** Letters and figures only: case, spaces, hyphens and a trailing plus make no difference. */
const bare = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '')

const byName: ReadonlyMap<string, Material> = new Map(
  materials.flatMap((material) =>
    [material.id, material.name, ...material.aliases].map(
      (name) => [bare(name), material] as const,
    ),
  ),
)

/**
 * The material a person means: `PLA`, `pla-cf`, `PLA CF`, `Nylon 6`.
 *
 * @returns the material, or the refusal `material_unknown` with those whose name begins alike
 */
export const findMaterial = (text: string): Outcome<Material> => {
  const wanted = bare(text)
  const found = byName.get(wanted)
  if (found) return accept(found)
  const alike = materials.filter(
    ({ id, aliases }) =>
      wanted !== '' && [id, ...aliases].some((name) => bare(name).startsWith(wanted)),
  )
  const expected = (alike.length > 0 ? alike : materials).map(({ id }) => id).join(', ')
  return refuse({
    code: 'material_unknown',
    message: `"${text.trim()}" is not a material known here. Choose one of ${expected}.`,
    expected,
    received: text,
  })
}
