import type { ReactNode } from 'react'
import { type Drawing, hatched } from '../../picture/index.ts'
import styles from './drawing.module.css'

/** The shapes of a drawing, in the inks of this sheet. @param id - no other drawing's */
export function DrawingShapes({
  drawing: { shapes, width },
  id,
}: {
  readonly drawing: Drawing
  readonly id: string
}): ReactNode {
  const clips = [...new Set(shapes.flatMap((shape) => clipOf(shape) ?? []))]
  const clipPath = (shape: Drawing['shapes'][number]): string | undefined => {
    const clip = clipOf(shape)
    return clip === undefined ? undefined : `url(#${id}-between-${clips.indexOf(clip)})`
  }
  return (
    <>
      <defs>
        {clips.map((clip, k) => {
          const [top = 0, bottom = 0] = clip.split(' ').map(Number)
          return (
            <clipPath key={clip} id={`${id}-between-${k}`}>
              <rect x={0} y={top} width={width} height={Math.max(bottom - top, 0)} />
            </clipPath>
          )
        })}
        <pattern id={`${id}-hatch`} width="7" height="7" patternUnits="userSpaceOnUse">
          <path d="M-1 8L8 -1" className={styles['hatch']} />
        </pattern>
      </defs>
      {shapes.map((shape, k) =>
        shape.kind === 'text' ? (
          <text
            // oxlint-disable-next-line react/no-array-index-key -- shapes have no names, and no state
            key={k}
            x={shape.x}
            y={shape.y}
            textAnchor={shape.anchor}
            className={
              shape.lettering === 'soft'
                ? styles['soft']
                : `${styles['label']} ${styles[shape.lettering]}`
            }
          >
            {shape.text}
          </text>
        ) : (
          <path
            // oxlint-disable-next-line react/no-array-index-key -- shapes have no names, and no state
            key={k}
            d={shape.d}
            clipPath={clipPath(shape)}
            fill={shape.fill === hatched ? `url(#${id}-hatch)` : shape.fill}
            className={styles[shape.ink]}
          />
        ),
      )}
    </>
  )
}

const clipOf = (shape: Drawing['shapes'][number]): string | undefined =>
  shape.kind === 'text' || shape.between === undefined
    ? undefined
    : `${shape.between.top} ${shape.between.bottom}`
