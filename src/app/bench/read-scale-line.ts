/** What one line of a scale's continuous output says. */
export type ScaleLine =
  | {
      readonly kind: 'weight'
      /** As `parseMass` takes it. */
      readonly text: string
      /** The scale said that the figure has come to rest, or says nothing of it. */
      readonly stable: boolean
    }
  /** More than the scale carries, or less than nothing. */
  | { readonly kind: 'outside' }

const heads: Readonly<Record<string, 'stable' | 'moving' | 'outside'>> = {
  ST: 'stable',
  S: 'stable',
  US: 'moving',
  D: 'moving',
  OL: 'outside',
  '+': 'outside',
  '-': 'outside',
  H: 'outside',
  L: 'outside',
}

const headed = /^(ST|US|OL)\s*(?:,\s*(GS|NT|TR|G|N|T))?\s*,?\s*(.*)$/i
const replied = /^S\s+([SDI+-])\s*(.*)$/
const figure = /^([+-])?\s*(\d{1,8}(?:[.,]\d{0,4})?)\s*(g|kg|mg|oz|lb)?$/i

/**
 * One line of a scale that sends ASCII: `S S     100.00 g` (command and reply), `ST,GS,+00123.45  g`
 * (header), `+   422.0 g` (16 characters). A figure without a head or sign is none: it was typed.
 *
 * @returns null for what is no such line
 */
export function readScaleLine(raw: string): ScaleLine | null {
  const line = raw.replaceAll(/\p{Cc}/gu, '').trim()
  const [, head, , afterHead] = headed.exec(line) ?? []
  const [, reply, afterReply] = replied.exec(line) ?? []
  if (/^[HL]$/.test(line)) return { kind: 'outside' }
  const state = heads[(head ?? reply ?? '').toUpperCase()]
  if (state === 'outside') return { kind: 'outside' }
  if (reply === 'I') return null
  const body = afterHead ?? afterReply ?? line
  const [, sign, digits, unit] = figure.exec(body.trim()) ?? []
  if (digits === undefined || (state === undefined && sign === undefined)) return null
  if (sign === '-' && Number(digits.replace(',', '.')) !== 0) return { kind: 'outside' }
  const plain = digits.replace(/^0+(?=\d)/, '').replace(/[.,]$/, '')
  // Scales that leave the unit out while the figure moves do so in the 16-character form.
  const stable = state === 'stable' || (state === undefined && unit !== undefined)
  return { kind: 'weight', text: `${plain} ${(unit ?? 'g').toLowerCase()}`, stable }
}
