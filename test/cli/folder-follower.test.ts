import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  type watch,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { expect, test } from 'vitest'
import { FolderFollower, type FollowerChoice } from '../../src/cli/folder-follower.ts'

/** A folder with a follower whose clock is moved by hand, and what it told. */
const followed = (choice: Partial<FollowerChoice> = {}) => {
  const folder = mkdtempSync(join(tmpdir(), 'reelreckon-follow-'))
  const told: string[] = []
  let now = Date.now()
  const name = (file: string): string => relative(folder, file)
  const follower = new FolderFollower(
    folder,
    {
      ready: (file) => told.push(`ready ${name(file)}`),
      gone: (file) => told.push(`gone ${name(file)}`),
      reachable: (error) => told.push(error === undefined ? 'back' : 'lost'),
      crowded: (most) => told.push(`more than ${most}`),
    },
    { deep: false, now: () => now, ...choice },
  )
  return {
    folder,
    follower,
    at: (path: string): string => join(folder, path),
    /** What is told by a look so many ms later. */
    after: async (ms: number): Promise<readonly string[]> => {
      now += ms
      await follower.look()
      return told.splice(0)
    },
  }
}

test('a file that is written is told of once nobody has written to it for a while', async () => {
  const { at, after } = followed()
  writeFileSync(at('a.gcode'), 'G28\n')
  expect(await after(0)).toEqual([])
  expect(await after(1000)).toEqual([])
  appendFileSync(at('a.gcode'), 'G1 X1 E1\n')
  expect(await after(1000)).toEqual([])
  expect(await after(1000)).toEqual([])
  expect(await after(600)).toEqual(['ready a.gcode'])
  expect(await after(60_000)).toEqual([])
})

test('one that was written long ago is told of at once, but not by the time it says', async () => {
  const { at, after } = followed()
  writeFileSync(at('a.gcode'), 'G28\n')
  // As a copy that keeps the times of what was copied: the file system knows when it was put there.
  utimesSync(at('a.gcode'), new Date(2020, 1, 1), new Date(2020, 1, 1))
  expect(await after(0)).toEqual([])
  expect(await after(1600)).toEqual(['ready a.gcode'])
  writeFileSync(at('b.gcode'), 'G28\n')
  expect(await after(11_000)).toEqual(['ready b.gcode'])
})

test('put in the place of another under the same name it is told of again', async () => {
  const { at, after } = followed()
  writeFileSync(at('a.gcode'), 'G28\n')
  await after(0)
  expect(await after(2000)).toEqual(['ready a.gcode'])
  writeFileSync(at('.a.gcode.part'), 'G28\nG1 X1 E1\n')
  expect(await after(100)).toEqual([])
  renameSync(at('.a.gcode.part'), at('a.gcode'))
  expect(await after(100)).toEqual([])
  expect(await after(2000)).toEqual(['ready a.gcode'])
})

test('gone is told of what was ready, or was before it changed, and of nothing else', async () => {
  const { at, after } = followed()
  writeFileSync(at('a.gcode'), 'G28\n')
  writeFileSync(at('b.gcode'), 'G28\n')
  await after(0)
  rmSync(at('b.gcode'))
  expect(await after(2000)).toEqual(['ready a.gcode'])
  appendFileSync(at('a.gcode'), 'G28\n')
  expect(await after(100)).toEqual([])
  rmSync(at('a.gcode'))
  expect(await after(100)).toEqual(['gone a.gcode'])
})

test('asked to, it tells again of a file that is as before, and no sooner than asked', async () => {
  const { at, after, follower } = followed()
  writeFileSync(at('a.gcode'), 'G28\n')
  await after(0)
  await after(2000)
  const mark = follower.markOf(at('a.gcode'))
  follower.again(at('a.gcode'), 20_000)
  expect(await after(19_000)).toEqual([])
  expect(await after(1500)).toEqual(['ready a.gcode'])
  expect(follower.isCurrent(at('a.gcode'), mark)).toBe(true)
  expect(follower.isCurrent(at('b.gcode'), undefined)).toBe(false)
})

test('a clock of the file system that is ahead makes nothing look old', async () => {
  const { at, after } = followed({ now: () => Date.now() - 3_600_000 })
  writeFileSync(at('a.gcode'), 'G28\n')
  expect(await after(0)).toEqual([])
})

test('folders in it only when asked for, and links in a circle not at all', async () => {
  for (const deep of [false, true]) {
    const { at, after, folder } = followed({ deep })
    mkdirSync(at('in/side'), { recursive: true })
    writeFileSync(at('in/side/a.gcode'), 'G28\n')
    symlinkSync(folder, at('in/round'))
    // oxlint-disable-next-line no-await-in-loop -- one after the other
    await after(0)
    // oxlint-disable-next-line no-await-in-loop -- as above
    expect(await after(2000)).toEqual(deep ? ['ready in/side/a.gcode'] : [])
  }
})

test('of too many prints only so many are followed, and that is told once', async () => {
  const { at, after } = followed({ most: 2 })
  for (const name of ['c', 'b', 'a']) writeFileSync(at(`${name}.gcode`), 'G28\n')
  expect(await after(0)).toEqual(['more than 2'])
  const ready = await after(2000)
  expect(ready).toHaveLength(2)
  expect(await after(2000)).toEqual([])
})

test('a folder that is gone is told once, and what is in it anew when it is back', async () => {
  const { at, after, folder } = followed()
  writeFileSync(at('a.gcode'), 'G28\n')
  await after(0)
  await after(2000)
  renameSync(folder, `${folder}-away`)
  expect(await after(2000)).toEqual(['lost'])
  expect(await after(2000)).toEqual([])
  renameSync(`${folder}-away`, folder)
  expect(await after(0)).toEqual(['back'])
  expect(await after(2000)).toEqual(['ready a.gcode'])
})

const until = async (isTrue: () => boolean): Promise<void> => {
  for (let tried = 0; !isTrue() && tried < 200; tried++) {
    // oxlint-disable-next-line no-await-in-loop -- waiting
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}

const none: typeof watch = () => {
  throw Object.assign(new Error('no more watches'), { code: 'ENOSPC' })
}

test.each([
  ['which the system tells of', undefined],
  ['where the system tells of none', none],
])('by itself it sees changes %s', async (_, watchFolder) => {
  const folder = mkdtempSync(join(tmpdir(), 'reelreckon-follow-'))
  const told: string[] = []
  const follower = new FolderFollower(
    folder,
    {
      ready: () => told.push('ready'),
      gone: () => told.push('gone'),
      reachable: () => told.push('reachable'),
      crowded: () => told.push('crowded'),
    },
    { deep: false, ...(watchFolder && { watchFolder }) },
  )
  await follower.follow()
  writeFileSync(join(folder, 'a.gcode'), 'G28\n')
  await until(() => told.length > 0)
  rmSync(join(folder, 'a.gcode'))
  await until(() => told.length > 1)
  await follower.stop()
  expect(told).toEqual(['ready', 'gone'])
})
