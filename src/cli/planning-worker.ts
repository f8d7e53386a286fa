import { type MessagePort, workerData } from 'node:worker_threads'
import { TapePlayer } from '../print/index.ts'
import { type PlanningOrder, planningState } from './planning-orders.ts'

const { port, state, blocks } = workerData as {
  readonly port: MessagePort
  readonly state: Int32Array
  readonly blocks: readonly Float64Array[]
}

let player = new TapePlayer({})

const moveOn = (which: number): void => {
  Atomics.add(state, which, 1)
  Atomics.notify(state, which)
}

const follow = (order: PlanningOrder): void => {
  if ('begin' in order) player = new TapePlayer(order.begin)
  else if ('block' in order) {
    const { block, length, things } = order
    player.play({ numbers: blocks[block] as Float64Array, length, things })
    moveOn(planningState.played)
  } else {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a port has no origin
    port.postMessage(player.finish())
    moveOn(planningState.finished)
  }
}

port.on('message', (order: PlanningOrder) => {
  try {
    follow(order)
  } catch (error) {
    // Who waits, or is about to, looks again where a number moves.
    Atomics.store(state, planningState.failed, 1)
    moveOn(planningState.played)
    moveOn(planningState.finished)
    throw error
  }
})
