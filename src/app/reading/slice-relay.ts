import { sliceRoom } from './each-slice.ts'

/** Slices on their way at a time: so much is held of a file where the other side is slower. */
const mostUnderWay = 16

/**
 * Hands slices on to another worker, through a port of which that has the other end. Their room comes back
 * from there, so that no more of a file is held than what is under way.
 */
export class SliceRelay {
  readonly #port: MessagePort
  readonly #rooms: ArrayBuffer[] = []
  #underWay = 0
  #cameBack: () => void = () => undefined

  constructor(port: MessagePort) {
    this.#port = port
    port.addEventListener('message', ({ data }: MessageEvent<ArrayBuffer>) => {
      this.#underWay--
      this.#rooms.push(data)
      this.#cameBack()
    })
    port.start()
  }

  /** @returns room for another slice, once there is some */
  async pass(slice: Uint8Array<ArrayBuffer>): Promise<ArrayBuffer> {
    this.#port.postMessage(slice, [slice.buffer])
    this.#underWay++
    if (this.#underWay === mostUnderWay) {
      await new Promise<void>((resolve) => {
        this.#cameBack = resolve
      })
    }
    return this.#rooms.pop() ?? new ArrayBuffer(sliceRoom)
  }

  /** There are no more. */
  end(): void {
    this.#port.postMessage(null)
  }
}

/** Takes what a `SliceRelay` hands on. @returns when that has ended */
export function eachRelayed(
  port: MessagePort,
  take: (slice: Uint8Array<ArrayBuffer>) => void,
): Promise<void> {
  return new Promise((settle) => {
    port.addEventListener('message', ({ data }: MessageEvent<Uint8Array<ArrayBuffer> | null>) => {
      if (data === null) {
        settle()
        return
      }
      take(data)
      port.postMessage(data.buffer, [data.buffer])
    })
    port.start()
  })
}
