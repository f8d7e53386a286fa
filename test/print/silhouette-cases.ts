import type { ReadOptions } from '../../src/print/index.ts'
import { program } from './case.ts'

/** A small print and its silhouette, drawn by hand: a head, then rows from the highest. */
export interface SilhouetteCase {
  readonly name: string
  readonly code: string
  readonly options?: ReadOptions
  readonly drawn: readonly string[]
}

const relative = (...lines: readonly string[]): string => program('M83', ...lines)
/** A bar at a height, from X to X. */
const bar = (height: number, from: number, to: number): readonly string[] => [
  `G1 Z${height} F600`,
  `G0 X${from} F6000`,
  `G1 X${to} E1`,
]

export const silhouetteCases: readonly SilhouetteCase[] = [
  {
    name: 'a bar: a row is no lower than the layer, and holds its upper edge',
    code: relative(...bar(0.2, 0, 0.9)),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111111'],
  },
  {
    name: 'a table: legs, and nothing between them',
    code: relative(
      ...[0.25, 0.5].flatMap((z) => bar(z, 0, 0.1).concat('G0 X0.9', 'G1 X0.99 E1')),
      ...bar(0.75, 0, 0.99),
    ),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111111', '1......1', '1......1'],
  },
  {
    name: 'a thick first layer reaches down to the bed, a thick one to what it lies on',
    code: relative(
      ...bar(0.5, 0, 0.99),
      ...bar(0.75, 0.25, 0.74),
      ...bar(1, 0.25, 0.74),
      ...bar(1.75, 0, 0.49),
    ),
    drawn: [
      'x from 0 by 0.125, from 0 by 0.25',
      '1111....',
      '1111....',
      '1111....',
      '..1111..',
      '..1111..',
      '11111111',
      '11111111',
    ],
  },
  {
    name: 'travel, retraction, wipe and a feed on the spot leave nothing',
    code: relative(
      ...bar(0.25, 0, 0.2),
      'G1 E-2',
      'G0 X2',
      'G1 X3 E-0.1',
      'G1 X3 E5',
      'G1 Z9 E1',
      'G1 X0',
    ),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11'],
  },
  {
    name: 'along Y when it is wider there',
    code: relative('G1 Z0.25', 'G1 Y0.9 X0.5 E1'),
    drawn: ['y from 0 by 0.125, from 0 by 0.25', '11111111'],
  },
  {
    name: 'along X when it is as wide',
    code: relative('G1 Z0.25 Y7', 'G1 X0.9 Y7.9 E1'),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111111'],
  },
  {
    name: 'left of and below zero; layers told by bars',
    code: relative(...bar(-0.5, -0.5, 0.2), ...bar(-0.25, -0.5, 0.2)),
    drawn: ['x from -0.5 by 0.125, from -0.75 by 0.25', '......', '111111', '111111'],
  },
  {
    name: 'a climbing way leaves no holes',
    code: relative(...bar(0.25, 0, 1.4), ...bar(0.5, 0, 0.1), 'G1 Z0.5', 'G1 X1.4 Z1.75 E2'),
    drawn: [
      'x from 0 by 0.125, from 0 by 0.25',
      '.........111',
      '.......111..',
      '....1111....',
      '..111.......',
      '111.........',
      '1...........',
      '111111111111',
    ],
  },
  {
    name: 'a start macro is left out',
    code: relative(
      ...bar(0.25, 40, 90),
      'G28',
      ...bar(0.25, -20, 30),
      'M109 S200',
      ...bar(0.5, -9, 0),
      'G92 E0',
      ...bar(0.25, 0, 0.9),
    ),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111111'],
  },
  {
    name: 'tools, each with its bit',
    code: relative(
      ...bar(0.25, 0, 0.9),
      'T1',
      'G1 X0.5 E1',
      'T0',
      ...bar(0.5, 0, 0.9),
      'T4',
      'G1 X0.65 E1',
    ),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111hhh', '11113333'],
  },
  {
    name: 'relative axes',
    code: relative(
      'G91',
      'G1 Z0.25 E0',
      'M83',
      'G1 X0.5 E1',
      'G1 X0.4 E1',
      'G1 Z0.25',
      'G1 X-0.9 E1',
    ),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111111', '11111111'],
  },
  {
    name: 'inches',
    code: relative('G20', 'G1 Z0.01', 'G1 X0.04 E1'),
    drawn: ['x from 0 by 0.125, from 0 by 0.5', '111111111'],
  },
  {
    name: 'G92 moves where the file says it is, as for layers',
    code: relative(...bar(0.25, 0, 0.4), 'G92 X0.7', 'G1 X0.9 E1'),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '1111.111'],
  },
  {
    name: 'a full circle',
    code: relative('G1 X1 Z0.25', 'G2 I0.5 E1'),
    drawn: ['x from 1 by 0.125, from 0 by 0.25', '111111111'],
  },
  {
    name: 'a half circle by its radius, anticlockwise, reaches out',
    code: relative('G1 X1 Y0 Z0.25', 'G3 X1 Y1.2 R0.6 E1', 'G0 Y0', 'G1 X1 Y0.1 E1'),
    drawn: ['y from 0 by 0.125, from 0 by 0.25', '1111111111'],
  },
  {
    name: 'under one family the second move feeds nothing',
    code: program('M83', 'G90', 'G1 Z0.25', 'G1 X0.4 E1', 'G1 X0.9 E1'),
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '1111'],
  },
  {
    name: 'under another family it does',
    code: program('M83', 'G90', 'G1 Z0.25', 'G1 X0.4 E1', 'G1 X0.9 E1'),
    options: { firmware: 'meta' },
    drawn: ['x from 0 by 0.125, from 0 by 0.25', '11111111'],
  },
  {
    name: 'a crumb in one cell',
    code: relative('G1 X5 Y5 Z0.2', 'G1 X5.01 E1'),
    drawn: ['x from 5 by 0.125, from 0 by 0.25', '1'],
  },
  {
    name: 'no move that feeds and travels: nothing',
    code: relative('G1 X5 Y5', 'G1 X5 Y5 E1', 'G1 X9', 'G1 E4', 'G1 Z3 E1'),
    drawn: ['null'],
  },
  {
    name: 'words without a number are none',
    code: relative('G1 Z0.25', 'G1 Xnan Y0.2 E1', 'G1 X Y0.4 E1', 'G1 X0.9'),
    drawn: ['y from 0 by 0.125, from 0 by 0.25', '1111'],
  },
]
