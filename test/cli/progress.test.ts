import { expect, test } from 'vitest'
import { Progress } from '../../src/cli/progress.ts'

const watched = (isTTY: boolean) => {
  const written: string[] = []
  let now = 0
  const progress = new Progress({ isTTY, write: (text) => written.push(text) }, () => now)
  return {
    written,
    at: (ms: number, bytes: number, total: number) => {
      now = ms
      progress.at(bytes, total, 'long.gcode')
    },
    end: () => progress.end(),
  }
}

test('share and speed after half a second, ten times a second at most, then gone', () => {
  const { written, at, end } = watched(true)
  at(400, 40e6, 200e6)
  expect(written).toEqual([])
  at(500, 50e6, 200e6)
  at(550, 55e6, 200e6)
  at(600, 60e6, 200e6)
  expect(written).toEqual([
    '\r\u001B[K  25 %   100 MB/s  long.gcode',
    '\r\u001B[K  30 %   100 MB/s  long.gcode',
  ])
  end()
  expect(written.at(-1)).toBe('\r\u001B[K')
})

test('no share where the size is not known', () => {
  const { written, at } = watched(true)
  at(1000, 50e6, 0)
  expect(written).toEqual(['\r\u001B[K          50 MB/s  long.gcode'])
})

test('nothing in a pipe', () => {
  const { written, at, end } = watched(false)
  at(5000, 50e6, 200e6)
  end()
  expect(written).toEqual([])
})

test('nothing to clear where nothing was shown', () => {
  const { written, at, end } = watched(true)
  at(100, 1, 2)
  end()
  expect(written).toEqual([])
})
