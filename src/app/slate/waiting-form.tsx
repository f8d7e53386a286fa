import { useQuery } from '@tanstack/react-query'
import { type FormEvent, type ReactNode, useState } from 'react'
import { useApi } from '../api/use-api.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import fieldStyles from '../field/field.module.css'
import { goToUnread } from '../field/go-to-unread.ts'
import { NumberField } from '../field/number-field.tsx'
import { parseMoment } from '../field/parse-clock.ts'
import { PickMaterial } from '../field/pick-of.tsx'
import { Press } from '../field/press.tsx'
import { QuantityField } from '../field/quantity-field.tsx'
import { SideBySide } from '../field/side-by-side.tsx'
import { TickField } from '../field/tick-field.tsx'
import { WordsField } from '../field/words-field.tsx'
import { Said } from '../look/said.tsx'
import { fieldWords } from '../strings/field-words.ts'
import { slateWords } from '../strings/slate-words.ts'
import { parseLayers } from './parse-layers.ts'
import styles from './slate.module.css'
import type { WantedPrint, WantedTool } from './told-print.ts'

/** What is wanted of a waiting print. */
export function WaitingForm({
  first,
  layers,
  isBusy,
  failed,
  keepWord,
  onKeep,
  onLeave,
}: {
  readonly first: WantedPrint
  /** Of the print; null where it is not known. */
  readonly layers: number | null
  readonly isBusy: boolean
  /** Why it was not taken. */
  readonly failed: string | null
  readonly keepWord: string
  readonly onKeep: (wanted: WantedPrint) => void
  readonly onLeave: () => void
}): ReactNode {
  const api = useApi()
  const [wanted, setWanted] = useState(first)
  const [copies, setCopies] = useState<number | null>(first.copies)
  const { data } = useQuery({ queryKey: ['rows', 'printer'], queryFn: () => api.rows('printer') })
  const shelf = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const printers = (data?.rows ?? []).flatMap((row) =>
    row.kind === 'printer' && row.retired !== true ? [row] : [],
  )
  const colours = [
    ...new Set((shelf.data?.reels ?? []).flatMap(({ reel }) => reel.colour ?? [])),
  ].toSorted()
  const set = (more: Partial<WantedPrint>): void => setWanted((now) => ({ ...now, ...more }))
  const setTool = (tool: number, more: Partial<WantedTool>): void =>
    set({ tools: wanted.tools.map((one) => (one.tool === tool ? { ...one, ...more } : one)) })
  return (
    <form
      noValidate
      className={styles['form']}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        if (goToUnread(event.currentTarget) || copies === null) return
        onKeep({ ...wanted, copies })
      }}
    >
      <SideBySide>
        <NumberField
          label={slateWords.copies}
          first={String(first.copies)}
          least={1}
          most={1000}
          whole
          onValue={setCopies}
        />
        <ChoiceField
          label={slateWords.importance}
          words={slateWords.importances}
          value={String(wanted.importance)}
          onChange={(importance) => set({ importance: Number(importance) })}
        />
        <QuantityField
          label={slateWords.due}
          hint={fieldWords.momentHint}
          first={first.due}
          parse={parseMoment}
          onValue={(due) => set({ due: due ?? '' })}
        />
        <NumberField
          label={slateWords.duration}
          hint={slateWords.mayBeLeft}
          first={first.duration_h === null ? '' : String(first.duration_h)}
          least={0.01}
          most={10_000}
          onValue={(duration_h) => set({ duration_h })}
        />
      </SideBySide>
      {wanted.tools.map(({ tool, material, colours: typed }) => (
        <fieldset key={tool} className={styles['tool']}>
          <legend>{slateWords.filamentOf(wanted.tools.length > 1 ? tool : null)}</legend>
          <PickMaterial
            value={material}
            hint={slateWords.anyMaterial}
            onChange={(next) => setTool(tool, { material: next })}
          />
          <WordsField
            label={slateWords.colours}
            hint={slateWords.coloursHint(colours)}
            value={typed}
            onChange={(next) => setTool(tool, { colours: next })}
          />
        </fieldset>
      ))}
      {printers.length < 2 ? null : (
        <fieldset className={styles['tool']}>
          <legend>{slateWords.printersMay}</legend>
          {printers.map(({ id, name }) => (
            <TickField
              key={id}
              label={name}
              isSo={wanted.printers.includes(id)}
              onChange={(isSo) =>
                set({
                  printers: isSo
                    ? [...wanted.printers, id]
                    : wanted.printers.filter((one) => one !== id),
                })
              }
            />
          ))}
        </fieldset>
      )}
      <TickField
        label={slateWords.mayChange}
        isSo={wanted.mayChange}
        onChange={(mayChange) => set({ mayChange })}
      />
      {wanted.mayChange ? (
        <QuantityField
          label={slateWords.changeAfter}
          hint={slateWords.changeAfterHint}
          first={first.layers}
          parse={(text) => parseLayers(text, layers)}
          onValue={(_, typed) => set({ layers: typed })}
        />
      ) : null}
      <WordsField
        label={slateWords.note}
        hint={slateWords.mayBeLeft}
        value={wanted.note}
        onChange={(note) => set({ note })}
      />
      {failed === null ? null : (
        <p role="alert" className={fieldStyles['refused']}>
          <Said>{failed}</Said>
        </p>
      )}
      <p className={styles['presses']}>
        <Press main type="submit" isDisabled={isBusy}>
          {keepWord}
        </Press>
        <Press onPress={onLeave}>{slateWords.leave}</Press>
      </p>
    </form>
  )
}
