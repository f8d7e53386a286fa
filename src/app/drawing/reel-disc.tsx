import type { ReactNode } from 'react'
import type { Figure } from '../strings/show-figure.ts'
import type { ReelDrawn } from './carrier-size.ts'
import styles from './drawing.module.css'
import { edgeBand } from './winding-edge.ts'

/** Windings thinner than this have no line at their edge, px: it would hide their colour. */
const thick = 3

/**
 * A reel from the side, a soft ring at its winding's edge for what is not sure. Has no words of its
 * own: it stands beside the reel's name and figures.
 */
export function ReelDisc({
  net_g,
  colour,
  drawn: { carrier, density_g_per_cm3: density },
  px_per_mm,
}: {
  readonly net_g: Figure | null
  readonly colour: string | null
  readonly drawn: ReelDrawn
  /** One for all discs that stand together. */
  readonly px_per_mm: number
}): ReactNode {
  const size = carrier.flange_mm * px_per_mm + 3
  const r = (diameter_mm: number): number => (diameter_mm / 2) * px_per_mm
  const edge = net_g === null ? null : edgeBand(net_g, carrier, density)
  return (
    <svg
      width={size}
      height={size}
      viewBox={`${-size / 2} ${-size / 2} ${size} ${size}`}
      aria-hidden="true"
    >
      {edge === null ? null : (
        <>
          <circle
            r={r(edge.likely)}
            fill={colour ?? 'var(--margin)'}
            className={styles['filament']}
          />
          <circle
            r={(r(edge.inner) + r(edge.outer)) / 2}
            strokeWidth={Math.max(r(edge.outer) - r(edge.inner), 0.5)}
            className={styles['softRing']}
          />
          {r(edge.likely) - r(carrier.hub_mm) < thick ? null : (
            <circle r={r(edge.likely)} className={styles['hairInk']} />
          )}
        </>
      )}
      <circle r={r(carrier.hub_mm)} className={styles['hub']} />
      <circle r={r(carrier.bore_mm)} className={styles['bore']} />
      <circle r={r(carrier.flange_mm)} className={styles['flange']} />
    </svg>
  )
}
