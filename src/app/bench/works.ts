import type { ReactNode } from 'react'
import { workWords } from '../strings/work-words.ts'
import type { BenchFormProps } from './bench-form.tsx'
import { ArrivalsForm } from './forms/arrivals-form.tsx'
import { CalipersForm } from './forms/calipers-form.tsx'
import { CarrierForm } from './forms/carrier-form.tsx'
import { CutForm } from './forms/cut-form.tsx'
import { DataSheetForm } from './forms/data-sheet-form.tsx'
import { DriedForm } from './forms/dried-form.tsx'
import { ImmersionForm } from './forms/immersion-form.tsx'
import { MovedForm } from './forms/moved-form.tsx'
import { TrimmedForm } from './forms/trimmed-form.tsx'
import { WindingForm } from './forms/winding-form.tsx'

/** One kind of bench work, with its form. */
export interface BenchWork {
  /** As in `/bench?measure=…`. */
  readonly id: string
  readonly name: string
  /** In a few words. */
  readonly what: string
  readonly Form: (props: BenchFormProps) => ReactNode
}

const forms: Readonly<Record<keyof typeof workWords.names, BenchWork['Form']>> = {
  arrivals: ArrivalsForm,
  carrier: CarrierForm,
  calipers: CalipersForm,
  cut: CutForm,
  immersion: ImmersionForm,
  winding: WindingForm,
  sheet: DataSheetForm,
  dried: DriedForm,
  moved: MovedForm,
  trimmed: TrimmedForm,
}

/** All bench work beside weighing reels, as it is offered. */
export const benchWorks: readonly BenchWork[] = (Object.keys(forms) as (keyof typeof forms)[]).map(
  (id) => ({
    id,
    name: workWords.names[id][0],
    what: workWords.names[id][1],
    Form: forms[id],
  }),
)
