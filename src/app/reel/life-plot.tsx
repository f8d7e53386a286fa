import 'uplot/dist/uPlot.min.css'
import { type ReactNode, useEffect, useRef } from 'react'
import uPlot from 'uplot'
import { formatIsoDay, formatIsoMinute } from '../../units/index.ts'
import { useWidth } from '../drawing/use-width.ts'
import { type MassUnit, markOf } from '../strings/show-figure.ts'
import { plotHeight } from './plot-height.ts'

/** A point of the line, or a mark on it. */
export interface LifePoint {
  /** Seconds since 1970. */
  readonly at: number
  readonly net_g: { readonly value: number; readonly u: number }
}

/** A mark; below the line where its fact says nothing of the mass. */
export interface LifeMark {
  readonly at: number
  readonly kind: string
  readonly net_g: number | null
}

/** The line of a reel's life with its band, two deviations to each side, and the marks of its facts. */
export function LifePlot({
  line,
  marks,
  unit,
  onPick,
}: {
  readonly line: readonly LifePoint[]
  readonly marks: readonly LifeMark[]
  readonly unit: MassUnit
  /** Told the moment that was pressed, seconds since 1970. */
  readonly onPick: (at: number) => void
}): ReactNode {
  const [room, width] = useWidth<HTMLDivElement>(600)
  const at = useRef<HTMLDivElement>(null)
  const pick = useRef(onPick)
  pick.current = onPick
  useEffect(() => {
    const element = at.current
    if (element === null) return undefined
    const draw = (): uPlot => drawLife(element, { line, marks, unit, width }, pick)
    let plot = draw()
    // A canvas does not follow the colours of the sheet by itself.
    const anew = (): void => {
      plot.destroy()
      plot = draw()
    }
    const ground = new MutationObserver(anew)
    ground.observe(document.documentElement, { attributeFilter: ['data-ground'] })
    const forced = matchMedia('(forced-colors: active)')
    forced.addEventListener('change', anew)
    return () => {
      ground.disconnect()
      forced.removeEventListener('change', anew)
      plot.destroy()
    }
  }, [line, marks, unit, width])
  return (
    <div ref={room}>
      <div ref={at} aria-hidden="true" />
    </div>
  )
}

const drawLife = (
  element: HTMLElement,
  {
    line,
    marks,
    unit,
    width,
  }: {
    readonly line: readonly LifePoint[]
    readonly marks: readonly LifeMark[]
    readonly unit: MassUnit
    readonly width: number
  },
  pick: { readonly current: (at: number) => void },
): uPlot => {
  // System colours are names to a style and no colours to a canvas: what is computed of them is.
  const probe = document.createElement('span')
  element.append(probe)
  const token = (name: string): string => {
    probe.style.color = `var(--${name})`
    return getComputedStyle(probe).color
  }
  const [ink, soft, hairline, paper] = [
    token('ink'),
    token('ink-soft'),
    token('hairline'),
    token('paper'),
  ]
  const font = `12px ${getComputedStyle(document.documentElement).getPropertyValue('--lettering')}`
  probe.remove()
  const mass = (net_g: number): number => markOf(net_g, unit)
  const at = line.map((point) => point.at)
  const net = line.map((point) => mass(point.net_g.value))
  const low = line.map(({ net_g }) => mass(Math.max(net_g.value - 2 * net_g.u, 0)))
  const high = line.map(({ net_g }) => mass(net_g.value + 2 * net_g.u))
  const axis: uPlot.Axis = {
    stroke: soft,
    font,
    grid: { stroke: hairline, width: 1, dash: [1, 4] },
    ticks: { stroke: ink, width: 1.5, size: 6 },
    border: { show: true, stroke: ink, width: 1.5 },
  }
  return new uPlot(
    {
      width,
      height: plotHeight,
      legend: { show: false },
      cursor: {
        y: false,
        points: { show: false },
        drag: { x: false, y: false },
      },
      scales: {
        x: { time: true },
        y: { range: () => [0, Math.max(...high, 1) * 1.04] },
      },
      axes: [
        {
          ...axis,
          space: 124,
          values: (_self, ticks, _axis, _space, apart) => ticks.map((tick) => dayOf(tick, apart)),
        },
        { ...axis, size: 56, values: (_self, ticks) => ticks.map((tick) => `${tick} ${unit}`) },
      ],
      series: [
        {}, // A width that is no whole number would be moved by what is over.
        { stroke: ink, width: 2, pxAlign: 0, points: { show: false } },
      ],
      hooks: {
        init: [
          (self) => {
            self.over.addEventListener('click', () => {
              const { left = -1 } = self.cursor
              if (left >= 0) pick.current(self.posToVal(left, 'x'))
            })
          },
        ],
        drawAxes: [
          (self) => {
            drawBand(self, at, low, high, withAlpha(ink, 0.18))
          },
        ],
        draw: [
          (self) => {
            drawMarks(self, marks, mass, { ink, paper })
          },
        ],
      },
    },
    [at, net],
    element,
  )
}

const oneDay_s = 86_400

/** A tick of the time axis, with its hour where ticks are less than a day apart. */
const dayOf = (seconds: number, apart: number): string =>
  apart < oneDay_s ? formatIsoMinute(1000 * seconds) : formatIsoDay(1000 * seconds)

const withAlpha = (colour: string, alpha: number): string =>
  colour.replace(/^rgb\((.*)\)$/, `rgba($1, ${alpha})`)

/** Drawn here, so that both edges of a step stand at its moment. */
const drawBand = (
  plot: uPlot,
  at: readonly number[],
  low: readonly number[],
  high: readonly number[],
  fill: string,
): void => {
  const { ctx } = plot
  ctx.save()
  ctx.beginPath()
  at.forEach((x, k) => {
    ctx.lineTo(plot.valToPos(x, 'x', true), plot.valToPos(high[k] ?? 0, 'y', true))
  })
  for (let k = at.length - 1; k >= 0; k--) {
    ctx.lineTo(plot.valToPos(at[k] ?? 0, 'x', true), plot.valToPos(low[k] ?? 0, 'y', true))
  }
  ctx.fillStyle = fill
  ctx.fill()
  ctx.restore()
}

/** Weighings are open rings, prints full dots, all else a tick at the foot. */
const drawMarks = (
  plot: uPlot,
  marks: readonly LifeMark[],
  mass: (net_g: number) => number,
  { ink, paper }: { readonly ink: string; readonly paper: string },
): void => {
  const { ctx, bbox } = plot
  const dot = devicePixelRatio
  ctx.save()
  ctx.strokeStyle = ink
  ctx.lineWidth = 1.5 * dot
  for (const { at, kind, net_g } of marks) {
    const x = plot.valToPos(at, 'x', true)
    ctx.beginPath()
    if (net_g === null) {
      const foot = bbox.top + bbox.height
      ctx.moveTo(x, foot)
      ctx.lineTo(x, foot - 9 * dot)
      ctx.stroke()
      continue
    }
    ctx.arc(
      x,
      plot.valToPos(mass(net_g), 'y', true),
      (kind === 'drew' ? 2.5 : 4) * dot,
      0,
      2 * Math.PI,
    )
    ctx.fillStyle = kind === 'drew' ? ink : paper
    ctx.fill()
    ctx.stroke()
  }
  ctx.restore()
}
