import { type ReactNode, useState } from 'react'
import type { MatchJson } from '../../contract/index.ts'
import { MassFigure } from '../figure/mass-figure.tsx'
import { TableHead } from '../figure/table-head.tsx'
import { Said } from '../look/said.tsx'
import { planWords } from '../strings/plan-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { ChangeNotes } from './change-notes.tsx'
import { type DutyPicture, type MarkOf, marksOf, troughsOf, turnsOf } from './plan-picture.ts'
import styles from './slate.module.css'
import { TroughList } from './trough-list.tsx'

/** A plan: its troughs, what it does not serve, the way along each printer and the notes there. */
export function PlanDrawn({
  plan,
  at,
  order,
  unit,
  about,
}: {
  readonly plan: MatchJson
  /** When it was found, ms since 1970. */
  readonly at: number
  /** Ids of the waiting prints as they are listed. */
  readonly order: readonly string[]
  readonly unit: MassUnit
  readonly about: (duty: DutyPicture) => ReactNode
}): ReactNode {
  const [chosen, setChosen] = useState<string | null>(null)
  const markOf = marksOf(order, plan.copies)
  const troughs = troughsOf(plan, markOf)
  const unserved = plan.copies.filter(({ printer }) => printer === null)
  const idle = plan.reels.length - troughs.length
  const takenOff = Map.groupBy(
    plan.copies.filter(({ waiting }) => !order.includes(waiting)),
    ({ waiting }) => waiting,
  )
  return (
    <>
      {Array.from(takenOff, ([waiting, copies]) => (
        <p key={waiting} role="status">
          {planWords.takenOff(copies.map(markOf), copies[0]?.name ?? '')}
        </p>
      ))}
      {troughs.length === 0 ? null : (
        <TroughList
          troughs={troughs}
          unit={unit}
          chosen={chosen}
          onChoose={setChosen}
          about={about}
        />
      )}
      {idle > 0 ? <p className={styles['soft']}>{planWords.idle(idle)}</p> : null}
      {unserved.length === 0 ? null : (
        <section className={styles['part']} aria-label={planWords.unserved}>
          <h2>{planWords.unserved}</h2>
          <ul>
            {unserved.map((copy) => (
              <li key={markOf(copy)} className={styles['unserved']}>
                <b className={styles['mark']}>{markOf(copy)}</b>
                <div>
                  <b className={styles['what']}>{copy.name}</b>
                  {copy.missing.map(({ tool, words }) => (
                    <p key={tool}>
                      <Said>{words}</Said>
                    </p>
                  ))}
                  {copy.remedies.map(({ words }) => (
                    <p key={words} className={styles['soft']}>
                      <Said>{words}</Said>
                    </p>
                  ))}
                </div>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section className={styles['part']} aria-label={planWords.orders}>
        <h2>{planWords.orders}</h2>
        <ul className={styles['orders']}>
          {plan.orders
            .filter(({ copies, running }) => copies.length + running.length > 0)
            .map((one) => (
              <li key={one.printer}>
                <b>{one.name}</b>{' '}
                <span className={styles['soft']}>
                  {[
                    planWords.atWork(one, at),
                    ...(one.copies.length > 0 ? [planWords.swaps(one.swaps)] : []),
                  ]
                    .filter((said) => said !== '')
                    .join(', ')}
                  {planWords.allDone(lastEnd(plan, one.copies), at)}
                </span>
                <ol className={styles['turns']}>
                  {turnsOf(plan, one.copies).map(({ first, copies }) => (
                    <li key={markOf(first)}>
                      <span>{planWords.begins(first.begins_h, at)}</span>
                      <span className={styles['what']}>
                        <b className={styles['marks']}>{copies.map(markOf).join(' → ')}</b>{' '}
                        {first.name}{' '}
                        <span className={styles['soft']}>{planWords.turn(first, at)}</span>
                      </span>
                    </li>
                  ))}
                </ol>
              </li>
            ))}
        </ul>
      </section>
      <ChangeNotes copies={plan.copies} markOf={markOf} />
      <details className={styles['part']}>
        <summary>{planWords.table}</summary>
        <PlanTable plan={plan} at={at} markOf={markOf} unit={unit} />
      </details>
    </>
  )
}

/** When the last of a printer's copies is done, hours from the plan; null where one is not known. */
const lastEnd = (
  { copies }: MatchJson,
  order: readonly { readonly waiting: string; readonly copy: number }[],
): number | null => {
  const last = order.at(-1)
  return (
    copies.find((one) => one.waiting === last?.waiting && one.copy === last.copy)?.ends_h ?? null
  )
}

const PlanTable = ({
  plan: { copies },
  at,
  markOf,
  unit,
}: {
  readonly plan: MatchJson
  readonly at: number
  readonly markOf: MarkOf
  readonly unit: MassUnit
}): ReactNode => (
  <table className={styles['table']}>
    <TableHead headings={planWords.headings} />
    <tbody>
      {copies.flatMap((copy) =>
        copy.duties.length === 0
          ? [
              <tr key={markOf(copy)}>
                <th scope="row">{`${markOf(copy)} ${copy.name}`}</th>
                <td colSpan={5}>{planWords.unserved}</td>
              </tr>,
            ]
          : copy.duties.map(({ tool, reel, after_layer, needed_g }) => (
              <tr key={`${markOf(copy)} ${tool} ${after_layer}`}>
                <th scope="row">{`${markOf(copy)} ${copy.name}`}</th>
                <td>{copy.printer_name}</td>
                <td>{planWords.doneBy(copy.ends_h, at)}</td>
                <td>{reel}</td>
                <td>
                  <MassFigure mass={needed_g} unit={unit} />
                </td>
                <td>{planWords.chance(copy.chance)}</td>
              </tr>
            )),
      )}
    </tbody>
  </table>
)
