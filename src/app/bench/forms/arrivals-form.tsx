import { type ReactNode, useRef, useState } from 'react'
import type {
  MakeRowJson,
  MeasuredJson,
  RecordedJson,
  ReelRequest,
  WeighingTellJson,
} from '../../../contract/index.ts'
import type { Measured } from '../../../units/index.ts'
import { newFactId } from '../../api/new-fact-id.ts'
import { priceOf } from '../../api/price-of.ts'
import { useApi } from '../../api/use-api.ts'
import { ReelStateChoice } from '../../arriving/reel-state-choice.tsx'
import { type ReelState, toldAs } from '../../arriving/told-as.ts'
import { ColourField } from '../../field/colour-field.tsx'
import { NumberField } from '../../field/number-field.tsx'
import { PickMake, PickMaterial } from '../../field/pick-of.tsx'
import { MassField } from '../../field/quantity-field.tsx'
import { SideBySide } from '../../field/side-by-side.tsx'
import { WordChoice } from '../../field/word-choice.tsx'
import { WordsField } from '../../field/words-field.tsx'
import { useChoices } from '../../look/choices.tsx'
import { keep, kept } from '../../look/kept.ts'
import { arrivalWords } from '../../strings/arrival-words.ts'
import { BesideField, withBeside } from '../../weighing/beside-field.tsx'
import { WeighingField } from '../../weighing/weighing-field.tsx'
import styles from '../bench.module.css'
import { BenchForm, type BenchFormProps } from '../bench-form.tsx'
import { ReelLabels } from '../reel-labels.tsx'
import { ScaleSelect } from '../scale-select.tsx'
import { asOne, noneTold, sendArrivals } from '../send-arrivals.ts'
import { useScaleChoice } from '../use-scale-choice.ts'

/** As many may be weighed as they arrive; more are told of in one and weighed later. */
const mostWeighed = 24

const isWeighedAtOnce = (count: number | null): boolean =>
  count !== null && count >= 1 && count <= mostWeighed

/** Reels that arrive, several alike in one go, with the ids to write on them. */
export function ArrivalsForm({ onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const choice = useScaleChoice()
  const { scale } = choice
  const [make, setMake] = useState<string | null>(null)
  const [name, setName] = useState('')
  const [maker, setMaker] = useState('')
  const [material, setMaterial] = useState<string | null>(null)
  const [carrier, setCarrier] = useState<NonNullable<MakeRowJson['carrier']>>('plastic')
  const [state, setState] = useState<ReelState>('new')
  const [label, setLabel] = useState<Measured | null>(null)
  const [colour, setColour] = useState('')
  const [srgb, setSrgb] = useState<string | null>(null)
  const [price, setPrice] = useState<number | null>(null)
  const [currency, setCurrency] = useState(() => kept('currency') ?? 'EUR')
  const [lot, setLot] = useState('')
  const [place, setPlace] = useState('')
  const [count, setCount] = useState<number | null>(1)
  const [weighings, setWeighings] = useState<readonly (WeighingTellJson | null)[]>([])
  const [beside, setBeside] = useState<MeasuredJson | null>(null)
  // One for each reel, the same however often it is sent.
  const ids = useRef<string[]>([])
  const isNew = make === null && name.trim() !== ''
  const many = count ?? 0
  const [told, setTold] = useState(noneTold)
  const there = told.answers.length

  const common = (): ReelRequest => ({
    make: isNew
      ? {
          name: name.trim(),
          maker: maker.trim(),
          carrier,
          ...(material !== null && { material }),
        }
      : { name: make ?? '' },
    ...(label !== null && { label_net_g: label.value }),
    ...(colour.trim() !== '' && {
      colour: { name: colour.trim(), ...(srgb !== null && { srgb }) },
    }),
    ...(price !== null && { price: priceOf(price, currency) }),
    ...(lot.trim() !== '' && { lot: lot.trim() }),
    ...(place.trim() !== '' && { place: place.trim() }),
  })

  const reelAt = (k: number): ReelRequest => {
    const weighing = withBeside(weighings[k] ?? null, beside)
    const onScale = weighing && { ...weighing, ...(scale !== null && { scale }) }
    return {
      ...common(),
      ...toldAs(state, onScale),
      id: (ids.current[k] ??= newFactId()),
    }
  }

  const add = async (_id: string, accept: boolean): Promise<RecordedJson> => {
    keep('currency', currency.toUpperCase())
    const rest = Math.max(many - there, 0)
    const reels =
      many > mostWeighed
        ? [
            {
              ...common(),
              ...toldAs(state, null),
              id: (ids.current[there] ??= newFactId()),
              count: rest,
            },
          ]
        : Array.from({ length: rest }, (_, k) => ({
            ...reelAt(there + k),
            // Only of the one that was doubted, which is the first of the rest.
            ...(accept && k === 0 && { accept }),
          }))
    return sendArrivals(reels, told, api.addReels, setTold)
  }

  const missing =
    make === null && !isNew
      ? arrivalWords.needsMake
      : isNew && maker.trim() === ''
        ? arrivalWords.needsMaker
        : count === null
          ? arrivalWords.needsCount
          : srgb !== null && colour.trim() === ''
            ? arrivalWords.srgbNeedsName
            : price !== null && !/^[a-z]{3}$/i.test(currency)
              ? arrivalWords.needsCurrency
              : null

  return (
    <BenchForm
      onAgain={onAgain}
      missing={missing}
      ask={add}
      of={[common(), state, weighings, beside, scale]}
      after={(answer) => <ReelLabels answer={answer} unit={unit} />}
    >
      <PickMake
        hint={arrivalWords.makeHint}
        value={make}
        onChange={setMake}
        onTyped={(typed) => setName(typed)}
      />
      {isNew ? (
        <fieldset className={styles['new']}>
          <legend>{arrivalWords.newMake}</legend>
          <WordsField label={arrivalWords.maker} value={maker} onChange={setMaker} />
          <PickMaterial value={material} onChange={setMaterial} />
          <WordChoice
            label={arrivalWords.carrier}
            words={arrivalWords.carriers}
            value={carrier}
            onChange={setCarrier}
          />
        </fieldset>
      ) : null}
      <ReelStateChoice many={many > 1} value={state} onChange={setState} />
      <SideBySide>
        <MassField label={arrivalWords.label} hint={arrivalWords.labelHint} onValue={setLabel} />
        <NumberField
          label={arrivalWords.count}
          first="1"
          whole
          least={Math.max(there, 1)}
          most={1000}
          onValue={(next) => {
            setCount(next)
            if (isWeighedAtOnce(next)) return
            // Their fields are gone, and come back empty.
            setWeighings([])
            setBeside(null)
          }}
        />
      </SideBySide>
      <SideBySide>
        <WordsField label={arrivalWords.colour} value={colour} onChange={setColour} />
        <ColourField label={arrivalWords.srgb} value={srgb} onChange={setSrgb} />
      </SideBySide>
      <SideBySide>
        <NumberField label={arrivalWords.price} onValue={setPrice} />
        <WordsField label={arrivalWords.currency} value={currency} onChange={setCurrency} />
      </SideBySide>
      <SideBySide>
        <WordsField label={arrivalWords.lot} value={lot} onChange={setLot} />
        <WordsField label={arrivalWords.place} value={place} onChange={setPlace} />
      </SideBySide>
      {there === 0 ? null : (
        <section className={styles['new']} aria-label={arrivalWords.there(there, many)}>
          <p role="status">{arrivalWords.there(there, many)}</p>
          <ReelLabels answer={asOne(told.answers)} unit={unit} />
        </section>
      )}
      {!isWeighedAtOnce(count) ? (
        <p className={styles['soft']}>{many < 1 ? '' : arrivalWords.weighLater(mostWeighed)}</p>
      ) : (
        <fieldset className={styles['new']}>
          <legend>{arrivalWords.grosses[state]}</legend>
          <SideBySide>
            {Array.from({ length: many }, (_, k) =>
              k < there ? null : (
                <WeighingField
                  // oxlint-disable-next-line react/no-array-index-key -- a reel has no other name yet
                  key={k}
                  label={arrivalWords.nth(k + 1)}
                  onValue={(one) =>
                    setWeighings((now) =>
                      Array.from({ length: Math.max(now.length, k + 1) }, (_each, at) =>
                        at === k ? one : (now[at] ?? null),
                      ),
                    )
                  }
                />
              ),
            )}
          </SideBySide>
          <BesideField onValue={setBeside} />
          <ScaleSelect choice={choice} />
        </fieldset>
      )}
    </BenchForm>
  )
}
