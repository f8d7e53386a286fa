import type { CatalogueRowJson, LearntJson, MeasuredJson, PaceJson } from '../../contract/index.ts'
import { firmwareFamilies } from '../../print/index.ts'
import {
  formatLinearDensity,
  formatMeasured,
  type GramsPerMetre,
  measured,
} from '../../units/index.ts'
import type { RowKind } from '../api/api.ts'
import { motionWords } from '../strings/motion-words.ts'
import { rowWords } from '../strings/row-words.ts'
import { type MassUnit, showLength, showMass } from '../strings/show-figure.ts'
import { motionFields } from './motion-fields.ts'
import {
  choiceField,
  densityField,
  factorField,
  lengthField,
  materialField,
  percentField,
  plainLengthField,
  plainMassField,
  plainPercentField,
  type RowField,
  valueOfField,
  wordsField,
} from './row-field.ts'

/** Any row but the priors, by its keys. */
export type Row = Exclude<
  CatalogueRowJson,
  { readonly kind: 'priors' | 'waiting' | 'plan' | 'running' }
>

/** A figure that the ledger learnt, under what was told of the same. */
export interface LearntFigure {
  readonly key: string
  readonly label: string
  readonly learnt: string
  /** From how much. */
  readonly from: string
}

const { fields, carriers } = rowWords

/**
 * What is asked of a new row, and of one that is changed.
 *
 * @param texts - what stands in the form, where what is asked depends on that
 */
export const fieldsOf = (
  kind: RowKind,
  unit: MassUnit,
  texts: Readonly<Record<string, string>>,
): readonly RowField[] => {
  const name = wordsField('name', true)
  const note = wordsField('note')
  const of: Readonly<Record<RowKind, readonly RowField[]>> = {
    printer: [
      name,
      choiceField(
        'firmware',
        firmwareFamilies.map(({ id, description }) => [id, `${id}: ${description}`]),
      ),
      factorField('feed_factor'),
      lengthField('start_allowance_mm'),
      lengthField('tail_mm'),
      lengthField('change_mm'),
      note,
      ...motionFields(texts),
    ],
    make: [
      wordsField('maker', true),
      name,
      materialField,
      plainMassField('label_net_g', unit),
      choiceField('carrier', Object.entries(carriers)),
      plainLengthField('nominal_diameter_mm'),
      note,
    ],
    material: [name, densityField('density_g_per_cm3'), percentField('water_share'), note],
    scale: [
      name,
      { ...plainMassField('step_g', unit), needed: true },
      plainMassField('repeatability_g', unit, true),
      plainPercentField('gain'),
      note,
    ],
    person: [name, note],
  }
  return of[kind]
}

/**
 * What a scale is taken to be where a field stays or is made empty: that of a kitchen scale, common practice.
 *
 * @param before - of a scale that is changed
 */
export const unlessTold = (
  kind: RowKind,
  told: Readonly<Record<string, unknown>>,
  before?: Readonly<Record<string, unknown>>,
): Readonly<Record<string, unknown>> => {
  if (kind !== 'scale') return told
  const step = told['step_g'] ?? before?.['step_g']
  const usual = { repeatability_g: Number(step) / 2, gain: 0.001 }
  if (before === undefined) return { ...usual, ...told }
  const filled = Object.entries(usual).filter(([key]) => told[key] === null)
  return { ...told, ...Object.fromEntries(filled) }
}

/** A row as a person calls it. */
export const nameOfRow = (row: Row): string =>
  row.kind === 'make' ? `${row.maker} ${row.name}` : row.name

/** What the ledger learnt of a row; nothing of what it learns nothing of. */
export const learntOf = (
  { kind, id }: Row,
  all: LearntJson | undefined,
  unit: MassUnit,
): readonly LearntFigure[] => {
  if (kind === 'printer') {
    const one = all?.printers.find((each) => each.id === id)
    if (one === undefined || one.prints === 0) return []
    const from = rowWords.ofPrints(one.prints)
    const figure = (key: 'feed_factor' | 'start_allowance_mm', learnt: string): LearntFigure => ({
      key,
      label: fields[key],
      learnt,
      from,
    })
    return [
      figure('feed_factor', formatMeasured(one.feed_factor, '').trim()),
      figure('start_allowance_mm', formatMeasured(one.start_allowance_mm, 'mm')),
      ...paceLearnt(one.pace),
    ]
  }
  if (kind === 'make') {
    const one = all?.makes.find((each) => each.id === id)
    if (one === undefined || one.reels + one.carriers_weighed === 0) return []
    const { value, u } = one.linear_density_g_per_m
    const over = { value: (one.overfill.value - 1) * 100, u: one.overfill.u * 100 }
    const from = rowWords.ofReels(one.reels, 0)
    const figure = (
      key: 'tare' | 'linear_density' | 'overfill',
      learnt: string,
      of: string = from,
    ): LearntFigure => ({ key, label: fields[key], learnt, from: of })
    return [
      figure('tare', showMass(one.tare_g, unit), rowWords.ofReels(one.reels, one.carriers_weighed)),
      figure('linear_density', formatLinearDensity(measured(value as GramsPerMetre, u))),
      figure('overfill', formatMeasured(over, '%')),
    ]
  }
  if (kind === 'scale') {
    const one = all?.scales.find((each) => each.id === id)
    if (one === undefined || one.weighings === 0) return []
    const percent = { value: one.gain.value * 100, u: one.gain.u * 100 }
    return [
      {
        key: 'gainFound',
        label: fields.gainFound,
        learnt: formatMeasured(percent, '%'),
        from: rowWords.ofWeighings(one.weighings),
      },
    ]
  }
  return []
}

const times = (of: MeasuredJson): string => `${formatMeasured(of, '').trim()} ×`

/** How a printer keeps to the plan; nothing where none of its prints was timed. */
const paceLearnt = ({ timed_prints, ...pace }: PaceJson): readonly LearntFigure[] => {
  if (timed_prints === 0) return []
  const from = motionWords.ofTimed(timed_prints)
  const { value, u } = pace.preparation_s
  const minutes = { value: value / 60, u: u / 60 }
  return [
    { key: 'pace_moves', label: motionWords.pace.moves, learnt: times(pace.moves), from },
    { key: 'pace_waits', label: motionWords.pace.waits, learnt: times(pace.waits), from },
    {
      key: 'pace_preparation',
      label: motionWords.pace.preparation,
      learnt: formatMeasured(minutes, 'min'),
      from,
    },
  ]
}

/** What was told of a row, as it is shown; of how it moves, only what was told. */
export const toldOf = (
  row: Row,
  fieldsOfKind: readonly RowField[],
  unit: MassUnit,
  materialName: (id: string) => string,
): readonly { readonly key: string; readonly label: string; readonly told: string }[] =>
  fieldsOfKind
    .filter(({ key }) => key !== 'name' && key !== 'maker' && key !== 'note')
    .map((field) => ({ field, value: valueOfField({ ...row }, field) }))
    .filter(({ field: { within }, value }) => within === undefined || value !== undefined)
    .map(({ field: { key, label, show, choices }, value }) => {
      const told = show(value)
      if (key === 'label_net_g' && typeof value === 'number') {
        return { key, label, told: showMass({ value, u: 0 }, unit) }
      }
      if (key === 'material' && told !== '') return { key, label, told: materialName(told) }
      if (key === 'tail_mm' && row.kind === 'printer' && row.tail_mm !== undefined) {
        return { key, label, told: showLength(row.tail_mm) }
      }
      const word = key === 'firmware' ? told : choices?.find(([one]) => one === told)?.[1]
      return { key, label, told: told === '' ? rowWords.notTold : (word ?? told) }
    })
