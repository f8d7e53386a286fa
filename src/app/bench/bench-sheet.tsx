import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { Link, useLocation, useSearch } from 'wouter'
import { useApi } from '../api/use-api.ts'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { benchWords } from '../strings/bench-words.ts'
import { frameWords } from '../strings/frame-words.ts'
import styles from './bench.module.css'
import { ChooseReel } from './choose-reel.tsx'
import { WeighIn } from './weigh-in.tsx'
import { benchWorks } from './works.ts'

/** Weighing and measuring: a reel on the scale in three touches, and the other bench work. */
export function BenchSheet(): ReactNode {
  const asked = new URLSearchParams(useSearch())
  const [, navigate] = useLocation()
  const reel = asked.get('reel')
  const measure = asked.get('measure')
  const work = benchWorks.find(({ id }) => id === measure)
  const Form = work?.Form
  const [round, setRound] = useState(0)
  const api = useApi()
  const shelf = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const scales = useQuery({ queryKey: ['rows', 'scale'], queryFn: () => api.rows('scale') })
  // Presses stand below what these tell: they must not move away under a finger.
  const isComing = shelf.isPending || scales.isPending
  return (
    <SheetFrame title={frameWords.bench}>
      <h1 className="spoken">{frameWords.bench}</h1>
      <div className={styles['bench']}>
        <div>
          {Form !== undefined && work !== undefined ? (
            <section aria-labelledby="bench-work">
              <h2 id="bench-work" className={styles['title']}>
                {work.name}
              </h2>
              {isComing ? null : (
                <Form
                  key={`${work.id} ${reel ?? ''} ${round}`}
                  reel={reel}
                  onAgain={() => setRound(round + 1)}
                />
              )}
            </section>
          ) : reel === null ? (
            <section aria-labelledby="bench-weigh">
              <h2 id="bench-weigh" className={styles['title']}>
                {benchWords.weighIn}
              </h2>
              <ChooseReel onChoose={(id) => navigate(`/bench?reel=${id}`)} />
            </section>
          ) : (
            <WeighIn key={reel} reel={reel} onAnother={() => navigate('/bench')} />
          )}
        </div>
        {isComing ? null : (
          <nav aria-label={benchWords.works}>
            <h2>{benchWords.works}</h2>
            <ul className={styles['works']}>
              {work === undefined ? null : (
                <li>
                  <Link href="/bench">{benchWords.weighIn}</Link>
                </li>
              )}
              {benchWorks.map(({ id, name, what }) => (
                <li key={id}>
                  <Link
                    href={`/bench?measure=${id}${reel === null ? '' : `&reel=${reel}`}`}
                    aria-current={id === measure ? 'page' : undefined}
                  >
                    {name}
                    <span>{what}</span>
                  </Link>
                </li>
              ))}
            </ul>
          </nav>
        )}
      </div>
    </SheetFrame>
  )
}
