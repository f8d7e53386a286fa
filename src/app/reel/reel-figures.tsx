import type { ReactNode } from 'react'
import type { MeasuredJson, ReelShowJson } from '../../contract/index.ts'
import {
  formatLinearDensity,
  formatMeasured,
  type GramsPerMetre,
  measured,
} from '../../units/index.ts'
import { MassFigure } from '../figure/mass-figure.tsx'
import { SaidFigure } from '../figure/said-figure.tsx'
import { TableHead } from '../figure/table-head.tsx'
import { reelWords } from '../strings/reel-words.ts'
import { type MassUnit, showLength } from '../strings/show-figure.ts'
import styles from './reel.module.css'

/** The figures of a reel, each with its uncertainty and what it rests on, guesses as such; its cost. */
export function ReelFigures({
  reel: { net_g, length_mm, tare_g, linear_density_g_per_m: perMetre, working, assumed, cost },
  unit,
}: {
  readonly reel: ReelShowJson
  readonly unit: MassUnit
}): ReactNode {
  const rests = new Map(working?.rests.map((one) => [one.id, one]))
  return (
    <table className={styles['figures']}>
      <TableHead spoken headings={reelWords.headings} />
      <tbody>
        <Row
          name={reelWords.net}
          value={massOf(net_g, unit)}
          on={working === null ? undefined : reelWords.weighedLast(working, unit, Date.now())}
        />
        <Row
          name={reelWords.length}
          value={length_mm === null ? reelWords.unreckoned : showLength(length_mm)}
        />
        <Row
          name={reelWords.tare}
          value={massOf(tare_g, unit)}
          on={rests.get('tare')?.on}
          isGuessed={rests.get('tare')?.guessed === true}
        />
        <Row
          name={reelWords.linearDensity}
          value={
            perMetre === null
              ? reelWords.unreckoned
              : formatLinearDensity(measured(perMetre.value as GramsPerMetre, perMetre.u))
          }
          on={rests.get('linear_density')?.on}
          isGuessed={rests.get('linear_density')?.guessed === true}
        />
        {(['density', 'diameter'] as const).map((quantity) => {
          const rest = rests.get(quantity)
          const source = assumed.find((one) => one.id === quantity)?.source
          return rest === undefined ? null : (
            <Row
              key={quantity}
              name={reelWords[quantity]}
              value={formatMeasured(
                measured(rest.value.value, rest.value.u),
                quantity === 'density' ? 'g/cm³' : 'mm',
              )}
              on={rest.guessed && source !== undefined ? reelWords.by(rest.on, source) : rest.on}
              isGuessed={rest.guessed}
            />
          )
        })}
        {cost === null ? null : (
          <>
            <Row
              name={reelWords.paid}
              value={reelWords.money(cost.paid.amount, cost.paid.currency)}
            />
            <Row name={reelWords.gone} value={moneyOf(cost.gone, cost.paid.currency)} />
            <Row name={reelWords.left} value={moneyOf(cost.left, cost.paid.currency)} />
          </>
        )}
      </tbody>
    </table>
  )
}

const massOf = (mass: MeasuredJson | null, unit: MassUnit): ReactNode =>
  mass === null ? reelWords.unreckoned : <MassFigure mass={mass} unit={unit} />

/** Cents at the finest: what is less sure than that shows its doubt. */
const moneyOf = ({ value, u }: MeasuredJson, currency: string): string =>
  formatMeasured(measured(value, Math.max(u, 0.01)), currency)

const Row = ({
  name,
  value,
  on = '',
  isGuessed = false,
}: {
  readonly name: string
  readonly value: ReactNode
  readonly on?: string | undefined
  readonly isGuessed?: boolean
}): ReactNode => (
  <tr className={isGuessed ? styles['guessed'] : undefined}>
    <th scope="row">{name}</th>
    <td>{typeof value === 'string' ? <SaidFigure said={value} /> : value}</td>
    <td>{on}</td>
  </tr>
)
