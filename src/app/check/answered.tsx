import { lazy, type ReactNode, Suspense } from 'react'
import { Link } from 'wouter'
import type { CheckJson, ReelHeadJson, ToolCheckJson } from '../../contract/index.ts'
import { drawDoubtIn } from '../../print/index.ts'
import type { PrintToCheck, ReelOfTool } from '../api/api.ts'
import { commonScale, reelDrawn } from '../drawing/carrier-size.ts'
import { PrintSilhouette } from '../drawing/print-silhouette.tsx'
import { ReelSection } from '../drawing/reel-section.tsx'
import { ScaleBar } from '../drawing/scale-bar.tsx'
import { VerdictRing } from '../drawing/verdict-ring.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { useNarrow } from '../look/use-narrow.ts'
import { checkWords } from '../strings/check-words.ts'
import { drawingWords } from '../strings/drawing-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import { type MassUnit, showMass } from '../strings/show-figure.ts'
import { ChangeReel } from './change-reel.tsx'
import styles from './check.module.css'
import { CheckWorking } from './check-working.tsx'
import { PrintTimes } from './print-times.tsx'
import type { SupposedPart } from './supposed-part.ts'
import { timesAlong } from './times-along.ts'
import { chanceOfPrint, chanceOfTool } from './told-chance.ts'
import type { StartAtHand } from './use-start.ts'

/** Its fields are heavier than all else of the answer. */
const settling = async () => ({ default: (await import('./settle-call.tsx')).SettleCall })
const SettleCall = lazy(settling)

/** Fetches what an answer is settled with while it is asked for: what stands below it then stays in place. */
export const fetchSettling = (): void => {
  // Where it fails it is tried again, and told, when it is drawn.
  settling().catch(() => undefined)
}

/** The verdict on the reels at hand, drawn, and below it what it rests on. */
export function Answered({
  check,
  print,
  reels,
  isPlanned,
  onlyIf,
  unit,
  question,
  startAt,
  onSuppose,
}: {
  readonly check: CheckJson
  readonly print: PrintToCheck
  readonly reels: readonly ReelOfTool[]
  /** False while the times are still those of another printer. */
  readonly isPlanned: boolean
  /** The materials it is of, by name, while nobody said what the print is to be made of. */
  readonly onlyIf: readonly string[] | null
  readonly unit: MassUnit
  /** What sets one question of a print apart from another: part of the key of all its answers. */
  readonly question: readonly unknown[]
  readonly startAt: StartAtHand
  /** Told what is supposed to have been measured of the reel of a tool. */
  readonly onSuppose: (tool: number, reel: string, part: SupposedPart) => void
}): ReactNode {
  const { reading } = print
  const reelOf = (tool: number): string | null =>
    reels.find((one) => one.tool === tool)?.reel ?? null
  const headOf = (tool: number): ReelHeadJson | null =>
    check.tools.find((one) => one.tool === tool)?.reel ?? null
  const narrow = useNarrow()
  const several = check.tools.length > 1
  const { run_dry: dry, change_before: change } = check
  const runDry = {
    early: dry.early?.height_mm ?? null,
    likely: dry.likely?.height_mm ?? null,
    late: dry.late?.height_mm ?? null,
  }
  const head = headOf(check.tool)
  const drawn = check.tools.map((tool) => reelDrawn(tool.wound, tool.net_g))
  const px_per_mm = commonScale(
    several || narrow ? 190 : 280,
    drawn.map(({ carrier }) => carrier),
  )
  const inDoubt = drawDoubtIn(reading.findings)
  const left = check.verdict === 'short' ? check.margin_g : check.left_over_g
  return (
    <section className={styles['drawn']} aria-label={checkWords.answer}>
      {onlyIf === null ? null : (
        <p className={styles['conditional']}>{checkWords.ifMaterial(onlyIf)}</p>
      )}
      <div className={styles['verdict']} role="status">
        <VerdictRing
          verdict={check.verdict}
          chance={chanceOfPrint(check, inDoubt !== undefined)}
          large
        />
        <p className={styles['sentence']}>
          {checkWords.sentence(check, several ? null : reelWords.name(head), unit, {
            spiral: reading.layers.spiral,
            inDoubt,
          })}
        </p>
      </div>
      {several ? (
        <ul className={styles['tools']}>
          {check.tools.map((tool) => (
            <ToolRow key={tool.tool} tool={tool} head={headOf(tool.tool)} unit={unit} />
          ))}
        </ul>
      ) : (
        <dl className={styles['figures']}>
          <div>
            <dt>{checkWords.needs}</dt>
            <dd>
              <MassFigure mass={check.needed_g} unit={unit} />
            </dd>
          </div>
          <div>
            <dt>{checkWords.holds}</dt>
            <dd>
              <MassFigure mass={check.net_g} unit={unit} />
            </dd>
          </div>
          <div>
            <dt>{left.value < 0 ? checkWords.lacks : checkWords.leaves}</dt>
            <dd>
              <MassFigure mass={{ ...left, value: Math.abs(left.value) }} unit={unit} />
            </dd>
          </div>
        </dl>
      )}
      <PrintTimes
        check={check}
        isPlanned={isPlanned}
        layers={reading.layers.count}
        spiral={reading.layers.spiral}
        at={startAt}
      />
      <div className={styles['pictures']}>
        {reading.silhouette === null ? null : (
          <figure className={several ? styles['whole'] : styles['silhouette']}>
            <PrintSilhouette
              silhouette={reading.silhouette}
              fills={check.tools.map(({ tool }) => ({
                tool: several ? tool : null,
                colour: headOf(tool)?.srgb ?? null,
              }))}
              runDry={runDry}
              height={narrow ? 240 : 300}
              change={check.verdict === 'enough' ? null : (change?.height_mm ?? null)}
              times={isPlanned ? timesAlong(check, startAt) : null}
            />
            <figcaption>{checkWords.printCaption(dry.early !== null)}</figcaption>
          </figure>
        )}
        {check.tools.map((tool, place) => {
          const id = reelOf(tool.tool)
          const shown = drawn[place]!
          return (
            <figure key={tool.tool} className={styles['reel']}>
              <ReelSection
                net_g={tool.net_g}
                after_g={tool.left_over_g.value < 0 ? null : tool.left_over_g}
                drawn={shown}
                px_per_mm={px_per_mm}
                colour={headOf(tool.tool)?.srgb ?? null}
                unit={unit}
              />
              <figcaption>
                {id === null ? null : (
                  <>
                    <Link href={`/reel/${id}`}>{checkWords.reelCaption(id)}</Link>.{' '}
                  </>
                )}
                {drawingWords.carrier(shown, unit)}
              </figcaption>
            </figure>
          )
        })}
      </div>
      {check.tools.map((tool) => {
        const id = reelOf(tool.tool)
        return id === null ? null : (
          <Suspense key={tool.tool} fallback={null}>
            <SettleCall
              check={tool}
              reel={id}
              supposed={reels.find((one) => one.tool === tool.tool)}
              onSuppose={(part) => onSuppose(tool.tool, id, part)}
            />
          </Suspense>
        )
      })}
      {several || head === null || check.verdict === 'enough' ? null : (
        <ChangeReel
          print={print}
          question={question}
          check={check}
          reel={head.id}
          material={head.material}
          unit={unit}
        />
      )}
      {several ? null : <ScaleBar needed_g={check.needed_g} net_g={check.net_g} unit={unit} />}
      <CheckWorking check={check} isPlanned={isPlanned} unit={unit} at={startAt} />
    </section>
  )
}

const ToolRow = ({
  tool,
  head,
  unit,
}: {
  readonly tool: ToolCheckJson
  readonly head: ReelHeadJson | null
  readonly unit: MassUnit
}): ReactNode => (
  <li>
    <span className={styles['toolName']}>{checkWords.tool(tool.tool)}</span>
    <VerdictRing verdict={tool.verdict} chance={chanceOfTool(tool)} />
    <span>{reelWords.name(head)}</span>
    <span className={styles['soft']}>
      {checkWords.needs} {showMass(tool.needed_g, unit)}, {checkWords.holds}{' '}
      {showMass(tool.net_g, unit)}
    </span>
  </li>
)
