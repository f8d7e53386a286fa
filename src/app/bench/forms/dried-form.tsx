import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { useApi } from '../../api/use-api.ts'
import { useDried } from '../../befalling/use-dried.tsx'
import type { BenchFormProps } from '../bench-form.tsx'
import { BefallenForm } from './befallen-form.tsx'

/** A reel that was dried. */
export function DriedForm({ reel: first, onAgain }: BenchFormProps): ReactNode {
  const api = useApi()
  const [reel, setReel] = useState(first)
  const { data } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  const material = data?.reels.find((one) => one.reel.id === reel)?.reel.material ?? null
  const dried = useDried(material)
  return <BefallenForm reel={reel} onReel={setReel} befalling={dried} onAgain={onAgain} />
}
