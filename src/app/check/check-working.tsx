import type { ReactNode } from 'react'
import type { CheckJson } from '../../contract/index.ts'
import { Said } from '../look/said.tsx'
import { checkWords } from '../strings/check-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import { type MassUnit, showLength, showMass } from '../strings/show-figure.ts'
import { AlongTable } from './along-table.tsx'
import styles from './check.module.css'
import { HeightsTable } from './heights-table.tsx'
import { timesAlong } from './times-along.ts'
import type { StartAtHand } from './use-start.ts'

/** The answer says already what does not agree: how far it is off stands with the working. */
const isOff = ({ code }: { readonly code: string }): boolean => code === 'surprising'

/** What the answer rests on, and what a person should know of the file. */
export function CheckWorking({
  check,
  isPlanned,
  unit,
  at,
}: {
  readonly check: CheckJson
  /** False while its times are still those of another printer. */
  readonly isPlanned: boolean
  readonly unit: MassUnit
  readonly at: StartAtHand
}): ReactNode {
  const { working, findings, notices } = check
  const times = isPlanned ? timesAlong(check, at) : null
  const rows: readonly (readonly [string, string, string])[] = [
    [checkWords.row.needs, showMass(check.needed_g, unit), showLength(check.needed_mm)],
    [
      checkWords.row.holds,
      showMass(check.net_g, unit),
      reelWords.weighedLast(working, unit, Date.now()),
    ],
    [checkWords.row.margin, showMass(check.margin_g, unit), checkWords.marginIs],
    [checkWords.row.tare, showMass(check.tare_g, unit), checkWords.on(working, 'tare')],
  ]
  const said = [
    ...notices.filter((one) => !isOff(one)).map(({ code, message }) => [code, message] as const),
    ...findings
      .filter(({ severity }) => severity !== 'note')
      .map(({ code, message }) => [code, message] as const),
  ]
  return (
    <>
      {said.length === 0 ? null : (
        <ul className={styles['said']}>
          {said.map(([code, message]) => (
            <li key={`${code} ${message}`}>
              <Said>{message}</Said>
            </li>
          ))}
        </ul>
      )}
      <details className={styles['working']}>
        <summary>{checkWords.working}</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">{checkWords.quantity}</th>
              <th scope="col">{checkWords.value}</th>
              <th scope="col">{checkWords.rests}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([name, value, on]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{value}</td>
                <td>{on}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {notices.filter(isOff).map(({ message }) => (
          <p key={message}>
            <Said>{message}</Said>
          </p>
        ))}
        <AlongTable check={check} isPlanned={isPlanned} at={at} />
        {times === null ? null : <HeightsTable times={times} />}
      </details>
    </>
  )
}
