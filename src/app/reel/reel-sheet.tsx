import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import type { MeasuredJson } from '../../contract/index.ts'
import { formatLinearDensity, type GramsPerMetre, measured } from '../../units/index.ts'
import { useApi } from '../api/use-api.ts'
import { ReelSection } from '../drawing/reel-section.tsx'
import { Swatch } from '../drawing/swatch.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { useChoices } from '../look/choices.tsx'
import { reelWords } from '../strings/reel-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { type MassUnit, showLength } from '../strings/show-figure.ts'
import styles from './reel.module.css'

/** One reel: its section, its figures with what each rests on, and its life. */
export function ReelSheet({ id }: { readonly id: string }): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const { data, error } = useQuery({ queryKey: ['reel', id], queryFn: () => api.reel(id) })
  const rests = new Map(data?.working?.rests.map((one) => [one.id, one]))
  return (
    <SheetFrame
      title={reelWords.title(id)}
      lines={data === undefined ? [] : [[reelWords.came, data.opened_at.slice(0, 10)]]}
    >
      {error === null ? null : (
        <div role="alert">
          <h1>{reelWords.noReel(id)}</h1>
          <p>{sayFailure(error)}</p>
        </div>
      )}
      {data === undefined ? null : (
        <>
          <h1>{reelWords.title(id)}</h1>
          <p>
            <Swatch colour={data.reel.srgb} /> {reelWords.colourAndMake(data.reel)},{' '}
            {reelWords.states[data.reel.state]}
            {data.reel.place === null ? '' : `, ${reelWords.at(data.reel.place)}`}
          </p>
          <div className={styles['top']}>
            {data.net_g === null ? null : (
              <ReelSection net_g={data.net_g} colour={data.reel.srgb} unit={unit} />
            )}
            <table className={styles['figures']}>
              <thead className="spoken">
                <tr>
                  {reelWords.headings.map((heading) => (
                    <th key={heading} scope="col">
                      {heading}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                <MassRow name={reelWords.net} mass={data.net_g} unit={unit} on="" />
                <tr>
                  <th scope="row">{reelWords.length}</th>
                  <td>{data.length_mm === null ? '' : showLength(data.length_mm)}</td>
                  <td />
                </tr>
                <MassRow
                  name={reelWords.tare}
                  mass={data.tare_g}
                  unit={unit}
                  on={reelWords.restsOn(rests.get('tare'))}
                />
                <tr>
                  <th scope="row">{reelWords.linearDensity}</th>
                  <td>
                    {data.linear_density_g_per_m === null
                      ? ''
                      : formatLinearDensity(
                          measured(
                            data.linear_density_g_per_m.value as GramsPerMetre,
                            data.linear_density_g_per_m.u,
                          ),
                        )}
                  </td>
                  <td>{reelWords.restsOn(rests.get('linear_density'))}</td>
                </tr>
              </tbody>
            </table>
          </div>
          {data.next === null ? null : (
            <p className={styles['next']}>
              <b>{reelWords.next}</b> {data.next.instruction}
            </p>
          )}
          {data.notices.map(({ code, message }) => (
            <p key={code} className={styles['next']}>
              {message}
            </p>
          ))}
          <h2 className={styles['life']}>{reelWords.facts}</h2>
          <ol className={styles['facts']}>
            {data.facts.toReversed().map((fact) => (
              <li key={fact.id}>
                <time dateTime={fact.at}>{fact.at.slice(0, 10)}</time>{' '}
                {fact.voided === null ? (
                  <span>{fact.what}</span>
                ) : (
                  <span>
                    <s>{fact.what}</s> {reelWords.voided(fact.voided.reason)}
                  </span>
                )}
              </li>
            ))}
          </ol>
        </>
      )}
    </SheetFrame>
  )
}

const MassRow = ({
  name,
  mass,
  unit,
  on,
}: {
  readonly name: string
  readonly mass: MeasuredJson | null
  readonly unit: MassUnit
  readonly on: string
}): ReactNode => (
  <tr>
    <th scope="row">{name}</th>
    <td>{mass === null ? reelWords.unreckoned : <MassFigure mass={mass} unit={unit} />}</td>
    <td>{on}</td>
  </tr>
)
