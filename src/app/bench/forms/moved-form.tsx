import { type ReactNode, useState } from 'react'
import { useMoved } from '../../befalling/use-moved.tsx'
import type { BenchFormProps } from '../bench-form.tsx'
import { BefallenForm } from './befallen-form.tsx'

/** A reel that stands somewhere else now. */
export function MovedForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const [reel, setReel] = useState(first)
  return <BefallenForm reel={reel} onReel={setReel} befalling={useMoved()} onAgain={onAgain} />
}
