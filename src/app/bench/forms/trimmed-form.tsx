import { type ReactNode, useState } from 'react'
import { useTrimmed } from '../../befalling/use-trimmed.tsx'
import type { BenchFormProps } from '../bench-form.tsx'
import { BefallenForm } from './befallen-form.tsx'

/** Filament that was taken off a reel and fed to no print. */
export function TrimmedForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const [reel, setReel] = useState(first)
  return <BefallenForm reel={reel} onReel={setReel} befalling={useTrimmed()} onAgain={onAgain} />
}
