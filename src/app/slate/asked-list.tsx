import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { useApi } from '../api/use-api.ts'
import { PickMake } from '../field/pick-of.tsx'
import { Press } from '../field/press.tsx'
import { planWords } from '../strings/plan-words.ts'
import type { AskedMatch } from './asked-match.ts'
import styles from './slate.module.css'

interface Wish {
  readonly said: string
  readonly without: AskedMatch
}

/** What is wished of the match, each with a press that lets it go; and one more reel to wish for. */
export function AskedList({
  asked,
  nameOf,
  isBusy,
  onAsk,
}: {
  readonly asked: AskedMatch
  /** Of a waiting print, by its id. */
  readonly nameOf: (waiting: string) => string
  readonly isBusy: boolean
  readonly onAsk: (asked: AskedMatch) => void
}): ReactNode {
  const api = useApi()
  const [make, setMake] = useState<string | null>(null)
  const { data } = useQuery({ queryKey: ['rows', 'make'], queryFn: () => api.rows('make') })
  const makeName = (id: string): string => {
    const row = data?.rows.find((one) => one.id === id)
    return row?.kind === 'make' ? `${row.maker} ${row.name}` : id
  }
  const { locks, forbidden, newReels, dropped } = asked
  const wishes: readonly Wish[] = [
    ...locks.map((lock) => ({
      said: planWords.locked(nameOf(lock.waiting), lock.reel),
      without: { ...asked, locks: locks.filter((one) => one !== lock) },
    })),
    ...forbidden.map((bar) => ({
      said: planWords.barred(bar.waiting === undefined ? null : nameOf(bar.waiting), bar.reel),
      without: { ...asked, forbidden: forbidden.filter((one) => one !== bar) },
    })),
    ...dropped.map((waiting) => ({
      said: planWords.dropped(nameOf(waiting)),
      without: { ...asked, dropped: dropped.filter((one) => one !== waiting) },
    })),
    ...newReels.map((reel) => ({
      said: planWords.oneMore(makeName(reel.make)),
      without: { ...asked, newReels: newReels.filter((one) => one !== reel) },
    })),
  ]
  return (
    <section className={styles['asked']} aria-label={planWords.asked}>
      <h3>{planWords.asked}</h3>
      <ul>
        {wishes.map(({ said, without }) => (
          <li key={said}>
            <span>{said}</span>
            <Press
              aria-label={planWords.letGoOf(said)}
              isDisabled={isBusy}
              onPress={() => onAsk(without)}
            >
              {planWords.letGo}
            </Press>
          </li>
        ))}
      </ul>
      <div className={styles['presses']}>
        <PickMake label={planWords.addReel} value={make} onChange={setMake} />
        <Press
          isDisabled={isBusy || make === null}
          onPress={() => {
            if (make === null) return
            onAsk({ ...asked, newReels: [...newReels, { make }] })
            setMake(null)
          }}
        >
          {planWords.addReelPress}
        </Press>
      </div>
    </section>
  )
}
