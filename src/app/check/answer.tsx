import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useEffect, useRef, useState } from 'react'
import { Link, useSearch } from 'wouter'
import type { ReelOfTool } from '../api/api.ts'
import { printId } from '../api/print-id.ts'
import { OutOfTouch, ProblemFault } from '../api/problem-fault.ts'
import { useApi } from '../api/use-api.ts'
import { focusIfLost } from '../field/focus-if-lost.ts'
import { Press } from '../field/press.tsx'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { useChoices } from '../look/choices.tsx'
import { Failure } from '../look/said.tsx'
import { RecordBar } from '../running/record-bar.tsx'
import { RunningList } from '../running/running-list.tsx'
import { reelsOfPrints } from '../running/running-print.ts'
import { usePrinter } from '../running/use-printer.ts'
import { useRunning } from '../running/use-running.ts'
import { checkWords } from '../strings/check-words.ts'
import { frameWords } from '../strings/frame-words.ts'
import { Answered, fetchSettling } from './answered.tsx'
import styles from './check.module.css'
import { ChooseFileButton } from './choose-file.tsx'
import { FileRemarks } from './file-remarks.tsx'
import { firstReels, isReelGone, withoutGone } from './first-reels.ts'
import { LeftOut } from './left-out.tsx'
import { MaterialChoice } from './material-choice.tsx'
import { isLeftOpen, printToCheck } from './print-to-check.ts'
import { RankedReels } from './ranked-reels.tsx'
import { reelAsked } from './reel-asked.ts'
import { type SupposedPart, supposedIn, withPart } from './supposed-part.ts'
import { Unanswered } from './unanswered.tsx'
import { anyMaterial, isMaterialOpen, materialsOf, useMaterial } from './use-material.ts'
import { plannedFor, usePlannedFor } from './use-planned-for.ts'
import type { PrintRead, ReadingAtHand } from './use-reading.ts'
import { useStart } from './use-start.ts'
import { wishedMaterial } from './wished-material.ts'

/** The answer for a print that was read: the reel at hand, and the others that could do it. */
export function Answer({
  read,
  at,
  note = null,
}: {
  readonly read: PrintRead
  readonly at: ReadingAtHand
  /** What a person should do beside. */
  readonly note?: string | null
}): ReactNode {
  const api = useApi()
  const { unit } = useChoices()
  const { file, member, sha256 } = read
  const startAt = useStart()
  useEffect(fetchSettling, [])
  // What the file was chosen with is gone.
  const name = useRef<HTMLHeadingElement>(null)
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- it uses no file, and is to be done anew with each that is read
  useEffect(() => focusIfLost(name.current), [sha256])
  const print = file.prints[member] ?? null
  const search = useSearch()
  const [taken, setTaken] = useState<readonly ReelOfTool[]>(() => reelAsked(read, search))
  const take = (one: ReelOfTool): void =>
    setTaken((now) => [...now.filter(({ tool }) => tool !== one.tool), one])
  const suppose = (tool: number, reel: string, part: SupposedPart): void =>
    setTaken((now) => withPart(now, { tool, reel }, part))
  const printerAt = usePrinter(print?.reading ?? null)
  const { printer, firmware } = printerAt
  const motion = usePlannedFor(at, printerAt)
  const key = [sha256, member, printer?.id, firmware, file.answers] as const
  const isOpen = print !== null && isLeftOpen(print.reading)
  const toCheck = isOpen ? null : printToCheck(read, printerAt)
  /** An answer stands until the next one is there, but only to the same print. */
  const ofSamePrint = <T,>(
    before: T | undefined,
    query: { readonly queryKey: readonly unknown[] } | undefined,
  ): T | undefined =>
    query?.queryKey[1] === sha256 && query.queryKey[2] === member ? before : undefined
  // Asked for while the file is still hashed.
  const slate = useQuery({ queryKey: ['slate'], queryFn: () => api.slate() })
  const known = toCheck && printId(toCheck)
  const made = useMaterial(known, known && wishedMaterial(slate.data?.waiting ?? [], known))
  const { material } = made
  const only = material === anyMaterial ? null : material
  const shelf = useQuery({
    queryKey: ['check-shelf', ...key, { material: only }],
    queryFn: () =>
      toCheck === null
        ? Promise.reject(new Error())
        : api.checkShelf(toCheck, only === null ? {} : { material: only }),
    enabled: toCheck !== null && printerAt.isKnown && !slate.isLoading,
    placeholderData: ofSamePrint,
  })
  const materials = shelf.data?.materials ?? []
  // The last reel of it may have ended, or another ledger be shown that does not know it.
  const isMaterialGone =
    only !== null &&
    ((shelf.error instanceof ProblemFault && shelf.error.problem.code === 'material_unknown') ||
      (shelf.data !== undefined &&
        !shelf.isPlaceholderData &&
        !materials.some(({ id }) => id === only)))
  useEffect(() => {
    if (isMaterialGone) made.forget()
  })
  const isAllTaken = (shelf.data?.tools ?? []).every(({ tool }) =>
    taken.some((one) => one.tool === tool),
  )
  // A reel that was taken by hand is a choice as well.
  const isMaterialAsked = material === null && isMaterialOpen(materials) && !isAllTaken
  const running = useRunning()
  const reels = firstReels(shelf.data?.tools ?? [], taken, reelsOfPrints(running))
  // Each tool needs a reel of its own.
  const lacksReels = reels.length > 0 && reels.length < (shelf.data?.tools.length ?? 0)
  const hasReels = reels.length > 0 && !lacksReels
  const check = useQuery({
    queryKey: ['check-reels', ...key, reels],
    // With what it is of: an answer that still stands is of the reels and the printer that were taken before.
    queryFn: async () => {
      if (toCheck === null) throw new Error()
      return { check: await api.checkReels(toCheck, reels), reels, planned: plannedFor(file) }
    },
    enabled: toCheck !== null && hasReels,
    placeholderData: ofSamePrint,
  })
  const isGone = isReelGone(check.error)
  const left = isGone ? withoutGone(shelf.data?.tools ?? [], taken) : taken
  if (left.length < taken.length) setTaken(left)
  const isPlanned = motion === null || check.data?.planned === motion
  const failure = shelf.error ?? check.error
  const isAnswered = hasReels && check.data !== undefined && shelf.data !== undefined
  const head = (
    <header className={styles['head']}>
      <h1 ref={name} tabIndex={-1} className={styles['fileName']}>
        {file.name}
      </h1>
      <ChooseFileButton onFile={at.take}>{checkWords.another}</ChooseFileButton>
    </header>
  )
  const title = checkWords.titleLines(file.bytes, sha256, print?.reading.layers.count ?? 0)
  return (
    <SheetFrame title={frameWords.check} lines={title}>
      {head}
      {note === null ? null : (
        <p role="status" className={styles['note']}>
          {note}
        </p>
      )}
      {file.prints.length > 1 ? (
        <label className={styles['member']}>
          {checkWords.whichPrint}{' '}
          <select value={member} onChange={(event) => at.choose(Number(event.target.value))}>
            {file.prints.map((one, k) => (
              <option key={one.name} value={k}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
      ) : null}
      {print === null ? null : (
        <FileRemarks
          reading={print.reading}
          answers={file.answers}
          onAnswer={at.answer}
          onAsk={at.ask}
        />
      )}
      {failure === null ? null : (
        <div className={styles['noAnswer']}>
          <div role="alert" className={styles['refused']}>
            <h2>{checkWords.noAnswer}</h2>
            <p>
              <Failure of={failure} />
            </p>
          </div>
          <Press
            onPress={() => {
              if (shelf.error !== null) void shelf.refetch()
              if (check.error !== null) void check.refetch()
            }}
          >
            {checkWords.again}
          </Press>
        </div>
      )}
      {shelf.data === undefined || isOpen ? null : (
        <MaterialChoice
          materials={materials}
          material={material}
          isWished={made.isWished}
          isAsked={isMaterialAsked}
          onChoose={(chosen) => {
            // Whatever was taken before was of another choice.
            setTaken([])
            made.say(chosen)
          }}
        />
      )}
      {!isAnswered && (failure !== null || shelf.data === undefined || isOpen) ? (
        <Unanswered
          silhouette={print?.reading.silhouette ?? null}
          awaits={failure !== null ? null : isOpen ? checkWords.answerFirst : checkWords.reckoning}
        />
      ) : null}
      {shelf.data !== undefined && !isOpen && reels.length === 0 ? (
        <>
          <p>{checkWords.noReels}</p>
          <LeftOut shelf={shelf.data} onAnswer={at.answer} />
        </>
      ) : null}
      {lacksReels ? (
        <p role="status">
          {checkWords.lacksReels} <Link href="/bench?measure=arrivals">{checkWords.addReel}</Link>
        </p>
      ) : null}
      {!isAnswered ||
      check.data === undefined ||
      shelf.data === undefined ||
      toCheck === null ? null : (
        <div className={styles['answer']}>
          {isGone ? null : (
            <Answered
              question={key}
              onSuppose={suppose}
              check={check.data.check}
              print={toCheck}
              reels={check.data.reels}
              isPlanned={isPlanned}
              onlyIf={isMaterialAsked ? materialsOf(check.data.check, materials) : null}
              unit={unit}
              startAt={startAt}
            />
          )}
          <RankedReels
            print={toCheck}
            question={key}
            material={only}
            tools={shelf.data.tools}
            two={shelf.data.two_reels}
            leftOut={<LeftOut shelf={shelf.data} onAnswer={at.answer} />}
            reels={reels}
            supposed={supposedIn(check.data)}
            running={running}
            unit={unit}
            onTake={take}
          />
        </div>
      )}
      {toCheck === null ||
      (!isAnswered && (failure === null || failure instanceof OutOfTouch)) ? null : (
        <RecordBar
          print={toCheck}
          reels={reels}
          // They are busy from then on, and would else make room for others.
          onStart={() => reels.forEach(take)}
          at={printerAt}
          startAt={startAt}
          check={check.data?.check ?? null}
          isPlanned={isPlanned}
          isSure={check.data?.check.verdict === 'enough' && !isMaterialAsked}
          isAwaited={
            check.data === undefined ||
            check.isPlaceholderData ||
            (shelf.isPlaceholderData && !isAllTaken) ||
            isGone
          }
        />
      )}
      <RunningList />
    </SheetFrame>
  )
}
