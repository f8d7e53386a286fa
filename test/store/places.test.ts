import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it, test } from 'vitest'
import { dataFolder, isNetworkFileSystem } from '../../src/store/index.ts'
import { isNetworkPath, mountedAs } from '../../src/store/network-file-system.ts'
import { placeNew } from '../../src/store/place-file.ts'
import { plainText, textOfPlain } from '../../src/store/plain-text.ts'

const home = mkdtempSync(join(tmpdir(), 'reelreckon-places-'))
afterAll(() => rmSync(home, { recursive: true }))

describe('the data folder', () => {
  it.each([
    ['linux', {}, '/h/ada', '/h/ada/.local/share/reelreckon'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/h/ada', '/data/reelreckon'],
    ['linux', { XDG_DATA_HOME: 'data' }, '/h/ada', '/h/ada/.local/share/reelreckon'],
    ['linux', { XDG_DATA_HOME: '' }, '/h/ada', '/h/ada/.local/share/reelreckon'],
    ['darwin', {}, '/h/ada', '/h/ada/Library/Application Support/Reelreckon'],
    ['win32', { LOCALAPPDATA: 'D:\\Local' }, 'C:\\ada', 'D:\\Local\\Reelreckon'],
    ['win32', {}, 'C:\\ada', 'C:\\ada\\AppData\\Local\\Reelreckon'],
  ])('on %s with %j', (platform, env, folder, expected) => {
    expect(dataFolder({ platform, env, home: folder })).toBe(expected)
  })
})

describe('a network file system', () => {
  it.each([
    ['NFS', 0x6969, undefined, true],
    ['CIFS', 0xff534d42, undefined, true],
    ['CIFS as a signed word', 0xff534d42 | 0, undefined, true],
    ['SMB 2', 0xfe534d42, undefined, true],
    ['9P', 0x01021997, undefined, true],
    ['FUSE for sshfs', 0x65735546, 'fuse.sshfs', true],
    ['FUSE for NTFS', 0x65735546, 'fuseblk', false],
    ['FUSE, unnamed', 0x65735546, undefined, false],
    ['ext4', 0xef53, undefined, false],
    ['btrfs', 0x9123683e, undefined, false],
    ['tmpfs', 0x01021994, undefined, false],
  ])('%s', (_, type, name, expected) => {
    expect(isNetworkFileSystem(type, name)).toBe(expected)
  })
  it.each([
    ['\\\\nas\\bench', true],
    ['//nas/bench', true],
    ['\\\\?\\C:\\bench', false],
    ['\\\\.\\C:\\bench', false],
    ['C:\\bench', false],
  ])('path %s', (path, expected) => {
    expect(isNetworkPath(path)).toBe(expected)
  })
  test('is found by its mount point', () => {
    const mounts = `21 1 8:1 / / rw shared:1 - ext4 /dev/sda1 rw
40 21 0:50 / /srv/far\\040away rw shared:2 - fuse.sshfs ada@boat: rw
41 21 0:51 / /srv/far rw - fuseblk /dev/sdb1 rw
`
    expect(mountedAs(mounts, '/srv/far away/bench')).toBe('fuse.sshfs')
    expect(mountedAs(mounts, '/srv/far')).toBe('fuseblk')
    expect(mountedAs(mounts, '/srv/farther')).toBe('ext4')
    expect(mountedAs('', '/srv')).toBeUndefined()
  })
})

const noLinks = async (): Promise<void> => {
  throw Object.assign(new Error('no links here'), { code: 'EPERM' })
}

describe('a new file gets its name', () => {
  let count = 0
  const draft = (text: string): { from: string; to: string } => {
    const to = join(home, `file-${count++}`)
    writeFileSync(`${to}.draft`, text)
    return { from: `${to}.draft`, to }
  }
  it.each([
    ['with links', undefined],
    ['without links', noLinks],
  ])('%s, once', async (_, makeLink) => {
    const { from, to } = draft('first')
    expect(await placeNew(from, to, makeLink)).toBe(true)
    expect(existsSync(from)).toBe(false)
    writeFileSync(from, 'second')
    expect(await placeNew(from, to, makeLink)).toBe(false)
    expect(readFileSync(to, 'utf8')).toBe('first')
  })
  test('without links, past a lock that a killed program left', async () => {
    const { from, to } = draft('late')
    mkdirSync(`${to}.placing`)
    expect(await placeNew(from, to, noLinks)).toBe(true)
    expect(existsSync(`${to}.placing`)).toBe(false)
  })
})

test.each(['cleat.gcode', 'plate "2"\\.gcode', 'zero\0', 'half \ud800', '😀', ''])(
  'text %j comes back from a column',
  (text) => {
    const plain = plainText(text)
    expect(textOfPlain(plain)).toBe(text)
    expect(plain.isWellFormed() && !plain.includes('\0')).toBe(true)
  },
)
