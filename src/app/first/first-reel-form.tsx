import { type ReactNode, useState } from 'react'
import type { MeasuredJson, ReelRequest, WeighingTellJson } from '../../contract/index.ts'
import type { Grams } from '../../units/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { useApi } from '../api/use-api.ts'
import { ReelStateChoice } from '../arriving/reel-state-choice.tsx'
import { type ReelState, toldAs } from '../arriving/told-as.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { Press } from '../field/press.tsx'
import { MassField } from '../field/quantity-field.tsx'
import { WordsField } from '../field/words-field.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure } from '../look/said.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { firstWords } from '../strings/first-words.ts'
import { BesideField, withBeside } from '../weighing/beside-field.tsx'
import { Surprise } from '../weighing/surprise.tsx'
import { WeighingField } from '../weighing/weighing-field.tsx'
import styles from './first.module.css'

/** Of one reel no more than a verdict needs: make, material, label, and what the scale shows. */
export function FirstReelForm({
  onAdded,
}: {
  /** Told the id of the reel. */
  readonly onAdded: (reel: string) => void
}): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const [maker, setMaker] = useState('')
  const [material, setMaterial] = useState('')
  const [state, setState] = useState<ReelState>('used')
  const [label, setLabel] = useState<Grams | null>(null)
  const [gross, setGross] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  // Posted twice, as after a lost answer, it is one reel.
  const [id] = useState(newFactId)
  const [isTold, setIsTold] = useState(false)
  const told: ReelRequest = {
    id,
    make: { name: material.trim(), maker: maker.trim(), material: material.trim() },
    ...(label !== null && { label_net_g: label }),
    ...toldAs(state, withBeside(gross, beside)),
  }
  const posting = usePosting((one: ReelRequest) => api.addReels(one), {
    of: told,
    onRecorded: ({ facts }) => {
      const reel = facts.find(({ kind }) => kind === 'opened')
      if (reel?.kind === 'opened') onAdded(reel.reel)
    },
  })
  const { failure, post } = posting
  const missing = isTold && state === 'used' && gross === null
  const isWhole =
    maker.trim() !== '' && material.trim() !== '' && (state === 'new' || gross !== null)
  return (
    <form
      className={styles['form']}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (goToUnread(event.currentTarget)) return
        setIsTold(true)
        if (isWhole) post(told)
      }}
    >
      <WordsField
        label={firstWords.maker}
        hint={firstWords.makerHint}
        value={maker}
        onChange={setMaker}
        refused={isTold && maker.trim() === '' ? firstWords.needed(firstWords.maker) : null}
      />
      <WordsField
        label={firstWords.material}
        hint={firstWords.materialHint}
        value={material}
        onChange={setMaterial}
        offered={firstWords.materials}
        refused={isTold && material.trim() === '' ? firstWords.needed(firstWords.material) : null}
      />
      <MassField
        label={firstWords.label}
        hint={firstWords.labelHint}
        onValue={(mass) => setLabel(mass?.value ?? null)}
      />
      <ReelStateChoice value={state} onChange={setState} />
      <WeighingField label={firstWords.gross} hint={firstWords.grossHint} onValue={setGross} />
      <BesideField onValue={setBeside} />
      {missing ? (
        <p role="alert" className={styles['refused']}>
          {firstWords.grossNeeded}
        </p>
      ) : null}
      {failure === null ? null : (
        <p role="alert" className={styles['refused']}>
          <Failure of={failure} />
        </p>
      )}
      <Surprise posting={posting} unit={unit} canRestate={false} />
      <Press type="submit" main>
        {firstWords.put}
      </Press>
    </form>
  )
}
