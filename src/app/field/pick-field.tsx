import { type ReactNode, useEffect, useRef, useState } from 'react'
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
import { findPickable, meantPickable, namedPickable, type Pickable } from './find-pickable.ts'
import { unreadMark } from './go-to-unread.ts'

/** Drawn at once: more would make each key wait. */
const most = 40

/**
 * A field that finds one of many by words, and takes it by key or press, or when it is left with words
 * that only one has. Other words are refused, or told by `onTyped`: it never tells another than it shows.
 */
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
  // What is half typed is no mistake yet.
  const [left, setLeft] = useState(false)
  // The box tells of one press both what was picked and its name.
  const last = useRef(value)
  last.current = value
  const text = typed ?? picked?.name ?? ''
  const isUnread = onTyped === undefined && value === null && text.trim() !== ''
  const pick = (id: string | null): void => {
    if (id === last.current) return
    last.current = id
    onChange(id)
  }
  const type = (next: string): void => {
    if (next === text) return
    setLeft(false)
    onTyped?.(next)
    const isPicked = items.some(({ id, name }) => id === last.current && name === next)
    setTyped(isPicked ? null : next)
    if (!isPicked) pick(next.trim() === '' ? null : (namedPickable(items, next)?.id ?? null))
  }
  // Also when the list comes after the words.
  useEffect(() => {
    if (!left || typed === null) return
    const meant = isUnread ? (meantPickable(items, typed)?.id ?? null) : value
    if (meant === null) return
    pick(meant)
    setTyped(null)
  }, [left, typed, isUnread, items, value])
  // What was picked has to stay in the list, and is no search for itself.
  const found = findPickable(items, text === picked?.name ? '' : text)
  const shown = found.slice(0, most)
  return (
    <ComboBox
      items={picked === null || shown.includes(picked) ? shown : [...shown, picked]}
      inputValue={text}
      onInputChange={type}
      // Where it changes the list is shut: not while words are typed that name one on the way.
      selectedKey={typed === null ? value : null}
      onSelectionChange={(key) => {
        // That none is picked shows in the words.
        if (key === null) return
        pick(String(key))
        setTyped(null)
      }}
      onBlur={() => setLeft(true)}
      onKeyDown={({ key }) => {
        if (key === 'Enter') setLeft(true)
      }}
      menuTrigger="focus"
      allowsEmptyCollection
      // Else it would put back what was picked before, in silence.
      allowsCustomValue
      isInvalid={left && isUnread}
      validationBehavior="aria"
      className={styles['field'] ?? ''}
    >
      <Label>{label}</Label>
      <div className={styles['pick']}>
        <Input
          autoComplete="off"
          className={styles['input'] ?? ''}
          {...(isUnread && { [unreadMark]: true })}
        />
        <Button className={styles['open'] ?? ''}>
          <span aria-hidden="true">⌄</span>
        </Button>
      </div>
      {hint === undefined ? null : (
        <Text slot="description" className={styles['hint'] ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles['refused'] ?? ''}>
        {found.length === 0 ? fieldWords.noneOf(text) : fieldWords.severalOf(text)}
      </FieldError>
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
