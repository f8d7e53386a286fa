import { expect, test } from 'vitest'
import { mays } from '../../src/contract/index.ts'
import { openApi } from '../../src/http/index.ts'

const operations = Object.values(openApi().paths).flatMap((methods) =>
  Object.entries(methods).map(([method, operation]) => Object.assign({ method }, operation)),
)
const takes = ({ security }: (typeof operations)[number]): string | undefined =>
  security.flatMap(({ token = [] }) => token)[0]

test('every operation says what a token has to be made for, or that nobody need log in', () => {
  const open = operations.filter(({ security }) => security.length === 0)
  expect(open.map(({ operationId }) => operationId)).toEqual([
    'showSession',
    'logIn',
    'logOut',
    'isRunning',
    'isReady',
  ])
  const others = operations.filter((one) => !open.includes(one))
  expect(others.filter((one) => !mays.some((may) => may === takes(one)))).toEqual([])
})

test('what only looks is asked by GET, or is a check, a picture, a copy with stops or a match, begun or ended', () => {
  const posts = operations.filter(({ method }) => method !== 'get')
  const looks = posts.filter((one) => takes(one) === 'look')
  expect(
    looks.every(({ operationId }) =>
      /^(check|what|match|drawPicture|copyWithPauses|tellPauses|endSearch)/i.test(operationId),
    ),
  ).toBe(true)
})

test('what puts another ledger in place, and what lets others in, is set up', () => {
  const named = ['restore', 'importLedger', 'importTable', 'loadDemo', 'removeDemo', 'addToken']
  for (const id of [...named, 'listTokens', 'removeToken', 'setPrior']) {
    const one = operations.find(({ operationId }) => operationId === id)
    expect([id, one && takes(one)]).toEqual([id, 'set_up'])
  }
})
