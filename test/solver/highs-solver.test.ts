import { expect, it } from 'vitest'
import { modelOf } from '../../src/match/linear-columns.ts'
import { highsSolver } from '../../src/solver/index.ts'

type Entry = readonly [row: number, value: number]

/** Bounds of the rows, and of each column, 0 or 1, its cost and its entries; cut down from one that turned up. */
const rows: readonly (readonly [number, number])[] = [
  [0, 0],
  [0, 0],
  [0, 0],
  [0, 0],
  [0, 0],
  [1, 1],
  [1, 1],
  [1, 1],
  [1, 1],
  [1, 1],
  [1, 1],
  [-Infinity, 13.35959031370196],
  [-Infinity, 2.000001],
  [-Infinity, 2],
  [-Infinity, 0],
  [-Infinity, 19.118425772266534],
  [-Infinity, 0],
  [-Infinity, 0],
  [-Infinity, 0],
  [-Infinity, 0],
  [-Infinity, 0],
  [-Infinity, 0],
]
const columns: readonly (readonly [cost: number, entries: readonly Entry[]])[] = [
  [
    0,
    [
      [0, -1],
      [5, 1],
    ],
  ],
  [
    0,
    [
      [6, 1],
      [12, 1],
    ],
  ],
  [
    0,
    [
      [1, -1],
      [6, 1],
      [11, 10.6],
    ],
  ],
  [
    0,
    [
      [6, 1],
      [12, 1],
    ],
  ],
  [
    0,
    [
      [2, -1],
      [6, 1],
    ],
  ],
  [
    0,
    [
      [3, -1],
      [7, 1],
    ],
  ],
  [
    0,
    [
      [8, 1],
      [12, 1],
    ],
  ],
  [
    0,
    [
      [8, 1],
      [11, 6.2],
    ],
  ],
  [
    0,
    [
      [4, -1],
      [9, 1],
      [12, 1],
    ],
  ],
  [
    0,
    [
      [9, 1],
      [11, 3.5],
    ],
  ],
  [
    0,
    [
      [10, 1],
      [12, 1],
    ],
  ],
  [
    0,
    [
      [10, 1],
      [11, 6],
    ],
  ],
  [
    0,
    [
      [0, 1],
      [14, 1],
    ],
  ],
  [
    1,
    [
      [13, 1],
      [14, -1],
    ],
  ],
  [
    0,
    [
      [1, 1],
      [15, 10.6],
      [16, 95.4284902553722],
    ],
  ],
  [
    0,
    [
      [2, 1],
      [15, 10.6],
      [17, 1],
    ],
  ],
  [
    0,
    [
      [3, 1],
      [16, 224.39647042730567],
    ],
  ],
  [
    1,
    [
      [13, 1],
      [16, -308.35675387348255],
    ],
  ],
  [
    1,
    [
      [13, 1],
      [17, -1],
    ],
  ],
  [
    0,
    [
      [18, 1],
      [19, -985.2617564765833],
    ],
  ],
  [
    0,
    [
      [1, 1],
      [18, -1],
      [19, 95.42849025537225],
    ],
  ],
  [
    0,
    [
      [18, -1],
      [19, 104.93202563683928],
      [20, 1],
    ],
  ],
  [
    0,
    [
      [3, 1],
      [18, -1],
      [19, 224.39647042730564],
      [21, 1],
    ],
  ],
  [
    0,
    [
      [4, 1],
      [18, -1],
      [19, 31.73653259656794],
    ],
  ],
  [
    1,
    [
      [13, 1],
      [20, -1],
      [21, -1],
    ],
  ],
  [0, [[4, 1]]],
]

// HiGHS ends in an error on this one unless its presolve is off. Of all that the columns can be 2 is the least.
it('solves a program on which the presolve fails', async () => {
  const model = modelOf(
    columns.map(([cost, entries]) => ({ cost, upper: 1, entries })),
    Float64Array.from(rows, ([lower]) => lower),
    Float64Array.from(rows, ([, upper]) => upper),
  )
  expect(await highsSolver()({ model })).toMatchObject({ status: 'optimal', value: 2, bound: 2 })
})
