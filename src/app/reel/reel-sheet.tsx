import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { Link } from 'wouter'
import { formatIsoDay } from '../../units/index.ts'
import type { MomentOfLife } from '../api/api.ts'
import { useApi } from '../api/use-api.ts'
import { checkWay } from '../check/reel-asked.ts'
import { commonScale, reelDrawn } from '../drawing/carrier-size.ts'
import { ReelSection } from '../drawing/reel-section.tsx'
import { Swatch } from '../drawing/swatch.tsx'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure, Said } from '../look/said.tsx'
import { FactList } from '../putting-right/fact-list.tsx'
import { drawingWords } from '../strings/drawing-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import { benchWay } from '../way/bench-way.ts'
import { BefallForm } from './befall-form.tsx'
import { DoubtedWeighing } from './doubted-weighing.tsx'
import { LifeChart } from './life-chart.tsx'
import styles from './reel.module.css'
import { ReelFigures } from './reel-figures.tsx'
import { ThenChoice } from './then-choice.tsx'

/** One reel: its section, its figures with what each rests on, its life, and what may befall it. */
export function ReelSheet({
  id,
  print,
}: {
  readonly id: string
  /** Name of the print at hand that can be checked on it. */
  readonly print: string | null
}): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const [then, setThen] = useState<MomentOfLife | null>(null)
  const { data, error } = useQuery({ queryKey: ['reel', id], queryFn: () => api.reel(id) })
  const life = useQuery({ queryKey: ['life', id], queryFn: () => api.life(id) })
  const past = useQuery({
    queryKey: ['reel', id, then],
    queryFn: () => (then === null ? Promise.reject(new Error()) : api.reel(id, then)),
    enabled: then !== null,
    // Keeps their room; figures of another moment are not shown.
    placeholderData: (before) => before ?? data,
  })
  const shown = then === null ? data : past.data
  const drawn = shown === undefined ? null : reelDrawn(shown.wound, shown.net_g)
  const isAwaited = then !== null && past.isPlaceholderData
  return (
    <SheetFrame
      title={reelWords.title(id)}
      lines={
        data === undefined
          ? []
          : [
              [reelWords.came, formatIsoDay(data.opened_at)],
              ...(then === null ? [] : [[reelWords.past, formatIsoDay(then.at)] as const]),
            ]
      }
    >
      {error === null ? null : (
        <div role="alert">
          <h1>{reelWords.noReel(id)}</h1>
          <p>
            <Failure of={error} />
          </p>
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
          {print === null || data.reel.state === 'retired' || data.reel.state === 'empty' ? null : (
            <p>
              <Link href={checkWay(id)}>{reelWords.checkOn(print)}</Link>
            </p>
          )}
          {then === null ? null : (
            <p role="status" className={styles['asItWas']}>
              <b>{reelWords.asItWas(then.at)}</b> {isAwaited ? reelWords.awaited : ''}
            </p>
          )}
          {then === null || past.error === null ? null : (
            <p role="alert">
              <Failure of={past.error} />
            </p>
          )}
          {shown === undefined || (then !== null && past.error !== null) ? null : (
            <div className={styles['top']} data-awaited={isAwaited}>
              {shown.net_g === null || drawn === null ? null : (
                <figure className={styles['section']}>
                  <ReelSection
                    net_g={shown.net_g}
                    colour={data.reel.srgb}
                    drawn={drawn}
                    px_per_mm={commonScale(280, [drawn.carrier])}
                    unit={unit}
                    {...(then !== null && { nowWord: reelWords.heldThen })}
                  />
                  <figcaption>{drawingWords.carrier(drawn, unit)}</figcaption>
                </figure>
              )}
              <ReelFigures reel={shown} unit={unit} />
            </div>
          )}
          <DoubtedWeighing reel={data} unit={unit} />
          {data.next === null ? null : (
            <p className={styles['next']}>
              <b>{reelWords.next}</b> <Said>{data.next.instruction}</Said>{' '}
              {reelWords.nextBrings(data.next, unit)}{' '}
              {benchWay(data.next.id, id) === null ? null : (
                <Link href={benchWay(data.next.id, id) ?? ''}>{reelWords.atBench}</Link>
              )}
            </p>
          )}
          {data.notices.map(({ code, message }) => (
            <p key={`${code} ${message}`} className={styles['next']}>
              <Said>{message}</Said>
            </p>
          ))}
          <h2 className={styles['life']}>{reelWords.life}</h2>
          {life.error === null ? null : (
            <p role="alert">
              <Failure of={life.error} />
            </p>
          )}
          {life.data === undefined ? null : (
            <LifeChart
              life={life.data}
              reel={data}
              unit={unit}
              onPick={(at) => setThen({ at: at < data.opened_at ? data.opened_at : at })}
            />
          )}
          {/* Below the life once that is there: a press must not move away under a finger. */}
          {life.isPending ? null : (
            <>
              <ThenChoice openedAt={data.opened_at} then={then} onThen={setThen} />
              {data.reel.state === 'retired' ? null : (
                <>
                  <h2 className={styles['life']}>{reelWords.tell}</h2>
                  <BefallForm reel={id} material={data.reel.material} unit={unit} />
                </>
              )}
              <h2 className={styles['life']}>{reelWords.facts}</h2>
              <FactList facts={data.facts} isOfReel unit={unit} />
            </>
          )}
        </>
      )}
    </SheetFrame>
  )
}
