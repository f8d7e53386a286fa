import { type FormEvent, type ReactNode, useState } from 'react'
import { changeCaution } from '../../contract/index.ts'
import { goToUnread } from '../field/go-to-unread.ts'
import { PickReel } from '../field/pick-of.tsx'
import { Press } from '../field/press.tsx'
import { QuantityField } from '../field/quantity-field.tsx'
import { TickField } from '../field/tick-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { Failure } from '../look/said.tsx'
import { recordWords } from '../strings/record-words.ts'
import styles from './running.module.css'
import { type RunningPrint, reelsNow } from './running-print.ts'
import { useRunningChange } from './use-running.ts'
import { layerUpTo } from './where-it-stopped.tsx'

/** Another reel took over in a running print. What each fed is written down with its end. */
export function ChangeRunningReel({
  print,
  onClose,
}: {
  /** With layers. */
  readonly print: RunningPrint
  readonly onClose: () => void
}): ReactNode {
  const now = reelsNow(print)
  const changing = useRunningChange(print.draw, onClose)
  const [tool, setTool] = useState(now[0]?.tool ?? 0)
  const [layer, setLayer] = useState<number | null>(null)
  const [reel, setReel] = useState<string | null>(null)
  const [isDry, setDry] = useState(false)
  const before = now.find((one) => one.tool === tool)
  const last = print.layers.height_mm.length - 1
  return (
    <form
      aria-label={recordWords.changed}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        if (goToUnread(event.currentTarget)) return
        if (layer === null || reel === null || reel === before?.reel) {
          const place = layer === null ? 0 : 1
          const fields = event.currentTarget.querySelectorAll<HTMLInputElement>(
            'input:not([type=radio], [type=checkbox])',
          )
          fields[place]?.focus()
          return
        }
        changing.mutate({
          took_over: { tool, reel, after_layer: layer, ...(isDry && { ran_dry: true }) },
        })
      }}
    >
      {now.length === 1 ? null : (
        <WordChoice<string>
          label={recordWords.changedWhich}
          words={Object.fromEntries(now.map((one) => [String(one.tool), one.reel]))}
          value={String(tool)}
          onChange={(next) => setTool(Number(next))}
        />
      )}
      <QuantityField
        label={recordWords.changedAfter(last)}
        parse={layerUpTo(last, (before?.after_layer ?? 0) + 1)}
        onValue={(value) => setLayer(value?.value ?? null)}
      />
      <PickReel label={recordWords.changedTo} value={reel} onChange={setReel} />
      <TickField label={recordWords.ranDry(before?.reel ?? null)} isSo={isDry} onChange={setDry} />
      <p className={styles['soft']}>{changeCaution}</p>
      <div className={styles['presses']}>
        <Press type="submit" main isWaiting={changing.isPending}>
          {recordWords.keepChange}
        </Press>
        <Press isWaiting={changing.isPending} onPress={onClose}>
          {recordWords.back}
        </Press>
      </div>
      {changing.error === null ? null : (
        <p role="alert">
          <Failure of={changing.error} />
        </p>
      )}
    </form>
  )
}
