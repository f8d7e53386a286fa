import type { CompiledSlate } from './compiled-slate.ts'
import { instant } from './print-job.ts'

/**
 * When some copies are all done at the latest, h, in whatever order and with whatever reels: something is at
 * work until then. Others must not be on their printers, nor have reels that fit them.
 */
export const lastEnd = (
  { copies, printers, free_h }: CompiledSlate,
  places: readonly number[],
): number => {
  let free = 0
  let total = 0
  for (const place of places) {
    const { duration_h, tasks, printers: may } = copies[place]!
    const reels = tasks.flatMap((task) => task.reels.map((reel) => printers.length + reel))
    for (const need of [...may, ...reels]) free = Math.max(free, free_h[need]!)
    total += duration_h ?? 0
  }
  return free + total
}

/** Whether any of some copies could be late; likewise. */
export const canBeLate = (slate: CompiledSlate, places: readonly number[]): boolean => {
  const end_h = lastEnd(slate, places)
  return places.some((place) => end_h > (slate.copies[place]!.due_h ?? Infinity) + instant)
}
