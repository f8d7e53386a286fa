import type { Command } from 'commander'
import { describe, expect, test } from 'vitest'
import { program } from '../../dist/cli/program.js'
import { apiPage } from '../../scripts/api-docs.ts'
import { openApi } from '../../src/http/index.ts'

/** Options of every command that does something, by its name as `reel add`. */
const leavesOf = (
  command: Command,
  path: readonly string[] = [],
): readonly (readonly [string, readonly string[]])[] =>
  command.commands.flatMap((each) => {
    const whole = [...path, each.name()]
    return each.commands.length > 0
      ? leavesOf(each, whole)
      : [[whole.join(' '), each.options.map(({ long }) => long ?? '')] as const]
  })

const leaves = new Map(leavesOf(program()))

/** What docs/api.md tells to have no address, as it stands there between backquotes. */
const exceptions = new Set(
  apiPage()
    .split(/\n(?=- |\n)/)
    .filter((line) => line.includes('has no address here'))
    .flatMap((line) => [...line.matchAll(/`([^`]+)`/g)].map(([, what]) => what!.split(' ')[0]!)),
)

/** Where the API does what a command does. */
const addresses: Readonly<Record<string, readonly string[]>> = {
  read: ['POST /api/prints', 'POST /api/pictures'],
  check: ['POST /api/checks/reels', 'POST /api/checks/shelf', 'POST /api/checks/in-turn'],
  'slate add': ['POST /api/slate'],
  'slate list': ['GET /api/slate'],
  'slate change': ['PATCH /api/slate/{waiting}'],
  'slate take-off': ['PATCH /api/slate/{waiting}'],
  'slate put-back': ['PATCH /api/slate/{waiting}'],
  match: ['POST /api/matches', 'PUT /api/plan'],
  pause: ['POST /api/paused-copies', 'POST /api/paused-copies/told'],
  'reel add': ['POST /api/reels'],
  'reel list': ['GET /api/reels'],
  'reel show': ['GET /api/reels/{reel}'],
  weigh: ['POST /api/weighings'],
  draw: ['POST /api/draws'],
  measure: ['POST /api/measurements', 'POST /api/data-sheets'],
  trim: ['POST /api/events'],
  empty: ['POST /api/events'],
  'run-dry': ['POST /api/events'],
  dry: ['POST /api/events'],
  move: ['POST /api/events'],
  retire: ['POST /api/events'],
  'put-right': ['POST /api/put-rights'],
  'make add': ['POST /api/rows/make'],
  'make change': ['PATCH /api/rows/make/{row}'],
  'make list': ['GET /api/rows/{kind}'],
  'make show': ['GET /api/makes/{make}/facts'],
  'printer add': ['POST /api/rows/printer'],
  'printer change': ['PATCH /api/rows/printer/{row}'],
  'printer list': ['GET /api/rows/{kind}'],
  'scale add': ['POST /api/rows/scale'],
  'scale change': ['PATCH /api/rows/scale/{row}'],
  'scale list': ['GET /api/rows/{kind}'],
  'person add': ['POST /api/rows/person'],
  'person list': ['GET /api/rows/{kind}'],
  'material add': ['POST /api/rows/material'],
  'material list': ['GET /api/rows/{kind}'],
  'priors list': ['GET /api/priors'],
  'priors set': ['PUT /api/priors/{key}'],
  backup: ['GET /api/backup'],
  restore: ['POST /api/restore'],
  export: ['GET /api/export', 'GET /api/tables/{table}'],
  import: ['POST /api/import', 'POST /api/import/table'],
}

/** Where the API takes what an option tells: a parameter of an operation, or a property of a schema. */
const places: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  read: {
    '--firmware': 'readPrint firmware',
    '--e-unit': 'readPrint e_unit',
    '--e-mode': 'readPrint e_mode',
    '--made-for': 'readPrint made_for_mm',
    '--material': 'readPrint material',
    '--density': 'readPrint density_g_per_cm3',
    '--diameter': 'readPrint diameter_mm',
    '--member': 'drawPicture member',
    '--picture': 'drawPicture kind',
    '--layer': 'drawPicture layer',
  },
  check: {
    '--reel': 'reel_named reel',
    '--gross': 'reel_told gross',
    '--extra': 'weighing_told extra_g',
    '--tare': 'reel_told own_carrier',
    '--tare-of-make': 'reel_told empty_carrier',
    '--carrier': 'reel_told carrier',
    '--gross-new': 'reel_told gross_when_new',
    '--label': 'reel_told label_net_g',
    '--new': 'reel_told is_new',
    '--material': 'reel_told material',
    '--density': 'reel_told density_g_per_cm3',
    '--diameter': 'reel_told diameter_mm',
    '--calipers': 'reel_told calipers',
    '--cut': 'reel_told cut',
    '--linear-density': 'reel_told linear_density_g_per_m',
    '--winding': 'reel_told winding',
    '--net': 'reel_told net_g',
    '--length': 'reel_told length_mm',
    '--scale': 'reel_told scale',
    '--tool': 'reel_told tool',
    '--printer': 'check_reels_request printer',
    '--colour': 'check_shelf_request colour',
    '--make': 'check_shelf_request make',
    '--place': 'check_shelf_request place',
    '--all': 'check_shelf_request all',
    '--feed-factor': 'check_reels_request feed_factor',
    '--start-allowance': 'check_reels_request start_allowance_mm',
    '--tail': 'check_reels_request tail_mm',
    '--draw': 'check_reels_request length_mm',
    '--mass': 'check_reels_request mass',
    '--member': 'check_reels_request print',
    '--stretch': 'check_reels_request stretch',
    '--start': 'check_reels_request start_at',
    '--in-turn': 'check_in_turn_request prints',
    '--confidence': 'check_reels_request confidence',
    '--picture': 'drawPicture reels',
    '--layer': 'drawPicture layer',
    '--firmware': 'check_reels_request firmware',
    '--e-unit': 'readPrint e_unit',
    '--e-mode': 'readPrint e_mode',
    '--made-for': 'readPrint made_for_mm',
  },
  match: {
    '--confidence': 'match_request confidence',
    '--useful': 'match_request useful_g',
    '--limit': 'match_request limit_s',
    '--lock': 'match_request locks',
    '--forbid': 'match_request forbidden',
    '--new-reel': 'match_request new_reels',
    '--drop': 'match_request dropped',
    '--busy': 'match_request busy',
    '--keep': 'plan_request choices',
  },
  weigh: {
    '--scale': 'weighing_told scale',
    '--extra': 'weighing_told extra_g',
    '--accept': 'weigh_request accept',
    '--empty': 'weigh_request empty',
    '--another': 'weigh_request another',
    '--make': 'weigh_request make',
    '--label': 'weigh_request label_net_g',
    '--at': 'weigh_request at',
    '--by': 'weigh_request by',
    '--note': 'weigh_request note',
  },
}

const { paths, components } = openApi()
const operations = Object.entries(paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, one]) =>
    Object.assign({ address: `${method.toUpperCase()} ${path}` }, one),
  ),
)

const takes = (place: string): boolean => {
  const [where, name = ''] = place.split(' ')
  const operation = operations.find(({ operationId }) => operationId === where)
  if (operation !== undefined) return operation.parameters.some((one) => one.name === name)
  const schema = components.schemas[where ?? ''] as { readonly properties?: object } | undefined
  return schema?.properties !== undefined && Object.hasOwn(schema.properties, name)
}

test('the page names what has no address', () => {
  expect([...exceptions].toSorted()).toEqual([
    '--data',
    '--in-full',
    '--json',
    '--ledger',
    '--new-pass-phrase',
    '--notes',
    '--overwrite',
    '--subfolders',
    '--why',
    'serve',
    'watch',
  ])
})

test('every command has an address, or stands among the exceptions', () => {
  const lacking = [...leaves.keys()].filter((name) => !(name in addresses) && !exceptions.has(name))
  expect(lacking).toEqual([])
  const twice = Object.keys(addresses).filter((name) => exceptions.has(name))
  expect(twice).toEqual([])
})

test('the table has no command and no address that is not', () => {
  expect(Object.keys(addresses).filter((name) => !leaves.has(name))).toEqual([])
  const known = new Set(operations.map(({ address }) => address))
  expect(
    Object.values(addresses)
      .flat()
      .filter((one) => !known.has(one)),
  ).toEqual([])
})

describe.each(Object.entries(places))('%s', (name, ofOptions) => {
  const options = leaves.get(name) ?? []

  test('every option has its place in the API, or stands among the exceptions', () => {
    expect(options.length).toBeGreaterThan(5)
    expect(options.filter((one) => !(one in ofOptions) && !exceptions.has(one))).toEqual([])
  })

  test('no place is of an option that is not, or is not there', () => {
    expect(Object.keys(ofOptions).filter((one) => !options.includes(one))).toEqual([])
    expect(Object.values(ofOptions).filter((place) => !takes(place))).toEqual([])
  })
})
