import { type ReactNode, useState } from 'react'
import {
  Button,
  ComboBox,
  FieldError,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Text,
} from 'react-aria-components'
import { Swatch } from '../drawing/swatch.tsx'
import { fieldWords } from '../strings/field-words.ts'
import styles from './field.module.css'

/** One of those that can be picked. */
export interface Pickable {
  readonly id: string
  /** What it is called, whole: stands in the field once it is picked. */
  readonly name: string
  /** It is found by these too. */
  readonly words?: string
  /** `#rrggbb` of filament, null where it is not known; no swatch where it is missing. */
  readonly colour?: string | null
}

/** Drawn at once: more would make each key wait. */
const most = 40

/** Those in which every word typed occurs. */
export function findPickable(items: readonly Pickable[], typed: string): readonly Pickable[] {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean)
  return items.filter(({ id, name, words = '' }) => {
    const hay = `${id} ${name} ${words}`.toLowerCase()
    return wanted.every((word) => hay.includes(word))
  })
}

/** A field that finds one of many by words, and takes it by key or press. */
export function PickField({
  label,
  hint,
  items,
  value,
  onChange,
  onTyped,
}: {
  readonly label: string
  readonly hint?: string
  readonly items: readonly Pickable[]
  /** Id of what is picked. */
  readonly value: string | null
  readonly onChange: (id: string | null) => void
  /** Told what is typed, where something that is not in the list is taken as well. */
  readonly onTyped?: (typed: string) => void
}): ReactNode {
  const picked = items.find(({ id }) => id === value) ?? null
  const [typed, setTyped] = useState<string | null>(null)
  const text = typed ?? picked?.name ?? ''
  // What was picked has to stay in the list, and is no search for itself.
  const found = findPickable(items, text === picked?.name ? '' : text)
  const shown = found.slice(0, most)
  return (
    <ComboBox
      items={picked === null || shown.includes(picked) ? shown : [...shown, picked]}
      inputValue={text}
      onInputChange={(next) => {
        setTyped(next)
        onTyped?.(next)
      }}
      selectedKey={value}
      onSelectionChange={(key) => {
        onChange(key === null ? null : String(key))
        if (key !== null) setTyped(null)
      }}
      menuTrigger="focus"
      allowsEmptyCollection
      allowsCustomValue={onTyped !== undefined}
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <div className={styles['pick']}>
        <Input autoComplete="off" className={styles['input'] ?? ''} />
        <Button className={styles['open'] ?? ''}>
          <span aria-hidden="true">⌄</span>
        </Button>
      </div>
      {hint === undefined ? null : (
        <Text slot="description" className={styles['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles['refused'] ?? ''} />
      <Popover className={styles['popover'] ?? ''}>
        <ListBox<Pickable>
          className={styles['list'] ?? ''}
          renderEmptyState={() => <p className={styles['hint']}>{fieldWords.noneFound}</p>}
        >
          {({ id, name, colour }) => (
            <ListBoxItem id={id} textValue={name} className={styles['item'] ?? ''}>
              {colour === undefined ? null : <Swatch colour={colour} />} {name}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  )
}
