import { describe, expect, test } from 'vitest'
import { readScaleLine } from '../../src/app/bench/read-scale-line.ts'

const weight = (text: string, stable: boolean): object => ({ kind: 'weight', text, stable })
const outside = { kind: 'outside' }

// Forms as in the published manuals of several makers: command and reply, header, 16 characters.
describe('a line of a scale', () => {
  test.each([
    ['S S     100.00 g', weight('100.00 g', true)],
    ['S D     100.02 g', weight('100.02 g', false)],
    ['S S       0.4225 kg', weight('0.4225 kg', true)],
    ['S +', outside],
    ['S -', outside],
    ['S I', null],
    ['ST,+00123.45  g\r\n', weight('123.45 g', true)],
    ['US,+00123.45  g\r\n', weight('123.45 g', false)],
    ['ST,GS,+00422.0  g', weight('422.0 g', true)],
    ['ST,NT,+0014.90 oz', weight('14.90 oz', true)],
    ['ST,GS,   422,5 g', weight('422,5 g', true)],
    ['OL,+99999.99  g', outside],
    ['ST,-00001.20  g', outside],
    ['ST,-00000.00  g', weight('0.00 g', true)],
    ['+   422.0   g  ', weight('422.0 g', true)],
    // No unit: the figure still moves.
    ['+   422.0      ', weight('422.0 g', false)],
    ['H', outside],
    ['L', outside],
    ['\u0002ST,+00123.45  g\u0003', weight('123.45 g', true)],
  ])('%j', (line, said) => {
    expect(readScaleLine(line)).toEqual(said)
  })
  test.each(['', '422', '422 g', 'Err 102', 'ES', 'hello', 'ST,', 'ST,+abc g', 'S S', '+1.2.3 g'])(
    '%j is none',
    (line) => {
      expect(readScaleLine(line)).toBeNull()
    },
  )
})
