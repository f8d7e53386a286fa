import { readFile, realpath, statfs } from 'node:fs/promises'

/**
 * Linux's type numbers of file systems that several machines share; SQLite's write-ahead log needs
 * memory that all its users share, which they can not offer.
 *
 * @see Linux, include/uapi/linux/magic.h, but for GFS2 (gfs2_ondisk.h) and Lustre (lustre_user.h)
 */
const networkTypes: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0x517b, 'SMB'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB 2'],
  [0x01021997, '9P'],
  [0x73757245, 'Coda'],
  [0x5346414f, 'AFS'],
  [0x6b414653, 'AFS'],
  [0x564c, 'NCP'],
  [0x00c36400, 'Ceph'],
  [0x7461636f, 'OCFS2'],
  [0x01161970, 'GFS2'],
  [0x0bd00bd3, 'Lustre'],
])

/** FUSE: local disks and remote ones alike; its name tells them apart. */
const fuseType = 0x65735546

/**
 * Whether a file system is a network's.
 *
 * @param type - `f_type` of statfs(2) on Linux, signed or not
 * @param name - as it stands in `/proc/self/mountinfo`, such as `fuse.sshfs`; asked for FUSE only
 */
export const isNetworkFileSystem = (type: number, name?: string): boolean => {
  // The field is a signed word on 32-bit machines.
  const unsigned = type >>> 0
  if (unsigned !== fuseType) return networkTypes.has(unsigned)
  return /^fuse\.(sshfs|rclone|s3fs|gcsfuse|davfs2?|curlftpfs|smbnetfs|glusterfs|ceph.*|cifs.*)$/.test(
    name ?? '',
  )
}

/**
 * The name of the network file system a folder is on; undefined for a local one, and where it can not
 * be told: on macOS and Windows type numbers say nothing, there only `\\server\share` is known.
 */
export const networkFileSystemOf = async (folder: string): Promise<string | undefined> => {
  if (process.platform === 'win32') return isNetworkPath(folder) ? 'a network share' : undefined
  if (process.platform !== 'linux') return undefined
  const { type } = await statfs(folder)
  const name = type >>> 0 === fuseType ? await fuseName(folder) : undefined
  if (!isNetworkFileSystem(type, name)) return undefined
  return name ?? networkTypes.get(type >>> 0)
}

const fuseName = async (folder: string): Promise<string | undefined> =>
  mountedAs(await readFile('/proc/self/mountinfo', 'utf8'), await realpath(folder))

/** True for `\\server\share`, not for `\\?\C:\` and `\\.\`. */
export const isNetworkPath = (path: string): boolean => /^[\\/]{2}[^\\/?.]/.test(path)

/**
 * The file system's name at the longest mount point above a folder.
 *
 * @param mountinfo - text of `/proc/self/mountinfo`
 * @see proc_pid_mountinfo(5)
 */
export const mountedAs = (mountinfo: string, folder: string): string | undefined => {
  let name: string | undefined
  let longest = -1
  for (const line of mountinfo.split('\n')) {
    const [before = '', after = ''] = line.split(' - ')
    const point = before
      .split(' ')[4]
      ?.replaceAll(/\\(\d{3})/g, (_, octal: string) =>
        String.fromCharCode(Number.parseInt(octal, 8)),
      )
    if (point === undefined || !isWithin(folder, point)) continue
    // Of two at the same place the later one lies on top.
    if (point.length < longest) continue
    longest = point.length
    name = after.split(' ')[0]
  }
  return name
}

const isWithin = (folder: string, point: string): boolean =>
  point === '/' || folder === point || folder.startsWith(`${point}/`)
