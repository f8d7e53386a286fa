import type { TwinMove } from './twin-motion.ts'

/** Numbers from 0 to 1 that look random and are the same every time. */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

const speeds = [10, 30, 60, 120, 300]

/**
 * A path as prints have them: curves in short pieces, corners, travels, retractions, changes of
 * height, rests.
 *
 * @param size - usual length of a move, mm
 */
export const randomPath = (seed: number, moves: number, size: number): TwinMove[] => {
  const random = seeded(seed)
  let direction = random() * 6.28
  let speed = 60
  return Array.from({ length: moves }, (): TwinMove => {
    const what = random()
    if (random() < 0.1) speed = speeds[Math.floor(random() * speeds.length)]!
    if (what < 0.04) {
      const feed = random() < 0.5 ? -0.8 : 0.8
      return { way: [0, 0, 0], feed, speed: 40, afterRest: random() < 0.1 }
    }
    if (what < 0.06) return { way: [0, 0, random() < 0.5 ? -0.3 : 0.3], feed: 0, speed: 10 }
    direction += random() < 0.7 ? (random() - 0.5) * 0.4 : (random() - 0.5) * 6.28
    const length = size * (0.1 + random())
    const rises = random() < 0.03 ? 0.2 : 0
    return {
      way: [length * Math.cos(direction), length * Math.sin(direction), rises],
      feed: random() < 0.8 ? length * 0.033 : random() < 0.1 ? -length * 0.05 : 0,
      speed,
    }
  })
}
