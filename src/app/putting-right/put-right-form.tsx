import { type FormEvent, type ReactNode, useState } from 'react'
import type {
  ColourJson,
  MeasuredJson,
  PutRightRequest,
  StoppedAtJson,
  WeighingTellJson,
} from '../../contract/index.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { priceOf } from '../api/price-of.ts'
import { useApi } from '../api/use-api.ts'
import { ReelStateChoice } from '../arriving/reel-state-choice.tsx'
import type { ReelState } from '../arriving/told-as.ts'
import { ColourField } from '../field/colour-field.tsx'
import { focusEmpty } from '../field/focus-empty.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { NumberField } from '../field/number-field.tsx'
import { PickMake, PickReel } from '../field/pick-of.tsx'
import { Press } from '../field/press.tsx'
import { LengthField, MassField } from '../field/quantity-field.tsx'
import { SideBySide } from '../field/side-by-side.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { WordsField } from '../field/words-field.tsx'
import { kept } from '../look/kept.ts'
import { Refused } from '../recorded/refused.tsx'
import { usePosting } from '../recorded/use-posting.ts'
import { WhatBecame } from '../recorded/what-became.tsx'
import { WhereItStopped } from '../running/where-it-stopped.tsx'
import { arrivalWords } from '../strings/arrival-words.ts'
import { recordWords } from '../strings/record-words.ts'
import { saidIn } from '../strings/said-in.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { BesideField } from '../weighing/beside-field.tsx'
import { Surprise } from '../weighing/surprise.tsx'
import { WeighingField } from '../weighing/weighing-field.tsx'
import styles from './putting-right.module.css'
import { type Right, rightsOf, type WrongFact } from './rights-of.ts'

/** A mass that is right is told as what a scale shows. */
interface RightTold extends Omit<PutRightRequest, 'mass_g' | 'last_place_g'> {
  readonly weighing?: WeighingTellJson
}

const requestOf = ({ weighing, ...told }: RightTold): PutRightRequest => ({
  ...told,
  ...(weighing && { mass_g: { value: weighing.reading_g, u: weighing.u_g ?? 0 } }),
  ...(weighing?.last_place_g !== undefined && { last_place_g: weighing.last_place_g }),
})

const isCurrency = (typed: string): boolean => /^[a-z]{3}$/i.test(typed.trim())

/** Says that a fact does not hold, and what holds in its place; then what became of the reels. */
export function PutRightForm({
  fact,
  unit,
  onClose,
}: {
  readonly fact: WrongFact & { readonly id: string; readonly what: string }
  readonly unit: MassUnit
  readonly onClose: () => void
}): ReactNode {
  const api = useApi()
  const rights = rightsOf(fact)
  const [id] = useState(newFactId)
  const [right, setRight] = useState<Right>(rights[0] ?? 'nothing')
  const [reason, setReason] = useState('')
  const [weighing, setWeighing] = useState<WeighingTellJson | null>(null)
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  const [length, setLength] = useState<MeasuredJson | null>(null)
  const [stopped, setStopped] = useState<StoppedAtJson | null>(null)
  const [make, setMake] = useState<string | null>(null)
  const [state, setState] = useState<ReelState>('used')
  const [colour, setColour] = useState<ColourJson>({ name: '' })
  const [reel, setReel] = useState<string | null>(null)
  const [label, setLabel] = useState<number | null>(null)
  const [amount, setAmount] = useState<number | null>(null)
  const [currency, setCurrency] = useState(() => kept('currency') ?? 'EUR')
  const [lot, setLot] = useState('')
  const figure: Partial<RightTold> | null = {
    nothing: {},
    mass: weighing && { weighing, ...(beside && { extra_g: beside }) },
    beside: beside && { extra_g: beside },
    length: length && { length_mm: length },
    stop: stopped && { stopped_at: stopped },
    reel: reel === null ? null : { reel },
    make: make === null ? null : { make, ...(label !== null && { label_net_g: label }) },
    state: { part_used: state === 'used' },
    colour: colour.name.trim() === '' ? null : { colour: { ...colour, name: colour.name.trim() } },
    label: label === null ? null : { label_net_g: label },
    price: amount === null || !isCurrency(currency) ? null : { price: priceOf(amount, currency) },
    lot: lot.trim() === '' ? null : { lot: lot.trim() },
  }[right]
  const told: RightTold = { id, fact: fact.id, reason: reason.trim(), ...figure }
  const posting = usePosting((one: RightTold) => api.putRight(requestOf(one)), { of: told })
  const { answer, isBusy, post } = posting
  if (answer?.recorded === true) {
    return (
      <div className={styles['form']}>
        <WhatBecame answer={answer} unit={unit} />
        <Press onPress={onClose}>{recordWords.done}</Press>
      </div>
    )
  }
  const isReady = figure !== null && reason.trim() !== ''
  return (
    <form
      className={styles['form']}
      aria-label={recordWords.putRightOf(saidIn(fact.what, unit))}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        if (goToUnread(event.currentTarget)) return
        if (isReady) post(told)
        else focusEmpty(event.currentTarget)
      }}
    >
      {rights.length === 1 ? null : (
        <WordChoice<string>
          label={recordWords.isWrong}
          words={Object.fromEntries(rights.map((one) => [one, recordWords.rights[one]]))}
          value={right}
          onChange={(next) => {
            setRight(next as Right)
            // Their fields come back empty.
            setWeighing(null)
            setBeside(null)
            setLength(null)
            setStopped(null)
            setLabel(null)
            setAmount(null)
          }}
        />
      )}
      {right === 'mass' ? (
        <>
          <WeighingField
            label={recordWords.rightMass}
            hint={recordWords.massHint}
            onValue={setWeighing}
          />
          {fact.kind === 'trimmed' ? null : (
            <BesideField words={recordWords.besideThen} onValue={setBeside} />
          )}
        </>
      ) : null}
      {right === 'beside' ? (
        <MassField
          key="beside"
          label={recordWords.besideThen.label}
          hint={recordWords.besideThen.hint}
          onValue={(mass) => setBeside(mass && { value: mass.value, u: mass.u })}
        />
      ) : null}
      {right === 'length' ? (
        <LengthField
          bare="m"
          label={recordWords.rightLength}
          hint={recordWords.lengthHint}
          onValue={(value) => setLength(value)}
        />
      ) : null}
      {right === 'stop' ? <WhereItStopped layers={null} onStopped={setStopped} /> : null}
      {right === 'reel' ? (
        <PickReel
          label={recordWords.rightReel}
          hint={recordWords.reelHint}
          all
          value={reel}
          onChange={setReel}
        />
      ) : null}
      {right === 'make' ? (
        <>
          <PickMake label={recordWords.rightMake} value={make} onChange={setMake} />
          {fact.kind === 'carrier-weighed' ? (
            <MassField
              key="carrier"
              label={recordWords.rightCarrierLabel}
              hint={recordWords.labelHint}
              onValue={(value) => setLabel(value?.value ?? null)}
            />
          ) : null}
        </>
      ) : null}
      {right === 'state' ? <ReelStateChoice value={state} onChange={setState} /> : null}
      {right === 'colour' ? (
        <SideBySide>
          <WordsField
            label={recordWords.rightColour}
            value={colour.name}
            onChange={(name) => setColour({ ...colour, name })}
          />
          <ColourField
            label={arrivalWords.srgb}
            value={colour.srgb ?? null}
            onChange={(srgb) => setColour({ name: colour.name, ...(srgb !== null && { srgb }) })}
          />
        </SideBySide>
      ) : null}
      {right === 'label' ? (
        <MassField
          key="label"
          label={recordWords.rightLabel}
          hint={recordWords.labelHint}
          onValue={(value) => setLabel(value?.value ?? null)}
        />
      ) : null}
      {right === 'price' ? (
        <SideBySide>
          <NumberField key="price" label={recordWords.rightPrice} onValue={setAmount} />
          <WordsField
            label={recordWords.rightCurrency}
            value={currency}
            onChange={setCurrency}
            refused={isCurrency(currency) ? null : recordWords.currencyRefused}
          />
        </SideBySide>
      ) : null}
      {right === 'lot' ? (
        <WordsField key="lot" label={recordWords.rightLot} value={lot} onChange={setLot} />
      ) : null}
      <WordsField
        label={recordWords.reason}
        hint={recordWords.reasonExample}
        value={reason}
        onChange={setReason}
      />
      <Surprise posting={posting} unit={unit} />
      <Refused posting={posting} />
      <div className={styles['presses']}>
        <Press type="submit" isWaiting={isBusy}>
          {recordWords.write}
        </Press>
        <Press onPress={onClose}>{recordWords.notNow}</Press>
      </div>
    </form>
  )
}
