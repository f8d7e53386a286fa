import { describe, expect, test } from 'vitest'
import { errorJson } from '../../src/contract/index.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const two = 'two-tool-part.gcode'
const draw = ['--draw', '62m'] as const

/** Words after `check`, the code of the refusal, and what its sentence must say. */
const wrong: readonly (readonly [words: readonly string[], code: string, says: RegExp])[] = [
  [[], 'nothing_to_check', /FILE, or --draw/],
  [[...draw], 'nothing_known', /--gross 422g/],
  [[...draw, '-5g'], 'unknown_option', /comes after --, as -- -5g/],
  [['knob.gcode', ...draw, '--net', '1g'], 'too_much_to_check', /one of them/],
  [[...draw, '--mass', '185g', '--net', '1g'], 'too_much_to_check', /one of them/],
  [
    ['--mass', '185g', '--net', '1g', '--density', '1240'],
    'density_out_of_range',
    /^--density: A density is from 0.3 to 12/,
  ],
  [['--mass', '185g', '--net', '1g'], 'density_missing', /--material or --density/],
  [['--draw', '62 ± 1 m', '--net', '1g'], 'no_uncertainty_here', /without ±/],
  [['--draw', '62 stone', '--net', '1g'], 'unit_not_taken', /^--draw: "stone"/],
  [[...draw, '--gross', '422 ml'], 'unit_not_taken', /^--gross: "ml".*422 g/],
  [[...draw, '--gross', '-422g'], 'negative', /^--gross: /],
  [[...draw, '--gross', '1,234'], 'number_ambiguous', /1\.234 or as 1234/],
  [[...draw, '--gross', ''], 'empty', /^--gross: Nothing was given/],
  [[...draw, '--gross', '100g', '--tare', '250g'], 'gross_below_tare', /less than nothing/],
  [[...draw, '--extra', '10g', '--net', '1g'], 'extra_without_gross', /give --gross/],
  [
    [...draw, '--gross', '1g', '--tare', '1g', '--carrier', 'metal'],
    'tare_twice',
    /its own carrier weighed and by what the carrier is/,
  ],
  [[...draw, '--gross', '422g', '--carrier', 'gold'], 'carrier_unknown', /plastic, cardboard/],
  [[...draw, '--gross', '422g', '--label', '1 ± 0.1 kg'], 'no_uncertainty_here', /^--label/],
  [[...draw, '--net', '1g', '--material', 'unobtainium'], 'material_unknown', /Choose one of/],
  [[...draw, '--net', '90g', '--material', 'PLA-CF'], 'density_needed', /--cut 1m=2.98g/],
  [[...draw, '--net', '1g', '--density', '0'], 'not_positive', /^--density/],
  [[...draw, '--net', '1g', '--density', '1240'], 'impossible_input', /Check the unit/],
  [[...draw, '--net', '1g', '--calipers', '1.75y1.76'], 'unit_not_taken', /^--calipers/],
  [[...draw, '--net', '1g', '--cut', '1m'], 'cut_malformed', /1m=2.98g/],
  [[...draw, '--net', '1g', '--cut', '1m=2=3'], 'cut_malformed', /1m=2.98g/],
  [[...draw, '--winding', 'hub=80mm, outer=90mm'], 'winding_incomplete', /width is missing/],
  [[...draw, '--winding', 'hub=80mm, outer=90mm, depth=6mm'], 'unit_not_taken', /depth/],
  [[...draw, '--winding', 'hub=80mm, outer=70mm, width=60mm'], 'winding_below_hub', /swapped/],
  [[...draw, '--winding', 'hub=80mm, hub=80mm'], 'key_twice', /"hub" is given twice/],
  [[...draw, '--winding', '80,90,60'], 'key_unknown', /hub=…/],
  [
    [...draw, '--net', '1g', '--scale', 'class=V, step=1g'],
    'scale_malformed',
    /I, II, III or IIII/,
  ],
  [
    [...draw, '--gross', '5kg', '--scale', 'class=IIII, step=1g'],
    'load_out_of_class',
    /class IIII/,
  ],
  [[...draw, '--net', '1g', '--feed-factor', 'one'], 'factor_malformed', /^--feed-factor/],
  [[...draw, '--net', '1g', '--feed-factor', '95'], 'factor_out_of_range', /about 1/],
  [[...draw, '--net', '1g', '--tail', 'long'], 'number_missing', /^--tail/],
  [[...draw, '--net', '1g', '--tail', '1'], 'unit_missing', /^--tail.*500mm or 0\.5m/],
  [[...draw, '--net', '1g', '--start-allowance', '4 ± 1'], 'unit_missing', /^--start-allow/],
  [[...draw, '--net', '1g', '--tail', '400m'], 'length_too_large', /more than 20 m/],
  [[...draw, '--net', '1g', '--confidence', '95'], 'share_above_one', /95 %/],
  [[...draw, '--net', '1g', '--confidence', '40%'], 'confidence_out_of_range', /more than 50 %/],
  [[...draw, '--net', '1g', '--stretch', '1'], 'needs_a_file', /^--stretch/],
  [[...draw, '--net', '1g', '--e-unit', 'mm'], 'needs_a_file', /^--e-unit/],
  [['knob.gcode', '--net', '1g', '--stretch', '2'], 'stretch_out_of_range', /1 part, not 2/],
  [['knob.gcode', '--net', '1g', '--stretch', 'half'], 'stretch_malformed', /no count/],
  [
    [two, '--net', '1g', '--tool', 'T1: net=1g', '--stretch', '1'],
    'stretch_of_several_tools',
    /one tool/,
  ],
  [['knob.gcode', '--net', '1g', '--firmware', 'mine'], 'firmware_unknown', /community: /],
  [['knob.gcode', '--net', '1g', '--e-unit', 'inch'], 'e_unit_unknown', /neither mm nor mm3/],
  [[...draw, '--net', '1g', '--e-mode', 'relative'], 'needs_a_file', /^--e-mode/],
  [['knob.gcode', '--net', '1g', '--e-mode', 'M83'], 'e_mode_unknown', /neither absolute nor/],
  [['knob.gcode', '--net', '1g', '--made-for', '175'], 'diameter_out_of_range', /^--made-for/],
  [['knob.gcode', '--net', '1g', '--diameter', '0'], 'diameter_out_of_range', /^--diameter/],
  [['knob.gcode', '--net', '1g', '--member', 'x'], 'member_unknown', /no print "x"/],
  [[two, '--net', '1g'], 'tool_without_reel', /T0, T1.*'T1:/],
  [[two, '--tool', 'T7: net=1g'], 'tool_not_used', /feeds from T0, T1/],
  [[two, '--tool', 'net=1g'], 'tool_malformed', /does not begin with a tool/],
  [[two, '--tool', 'T1: nett=1g'], 'key_unknown', /"nett=1g" is not understood/],
  [[two, '--tool', 'T1: net=1g', '--tool', 'T1: net=2g'], 'tool_twice', /T1 is given twice/],
  [[two, '--tool', 'T1: gross=1ml', '--net', '1g'], 'unit_not_taken', /^--tool T1, gross: /],
  [['knob.gcode', '--tool', 'T0: net=1g', '--net', '1g'], 'reel_without_tool', /one reel.*--net/],
  [['--draw', '0m', '--net', '1g'], 'nothing_to_draw', /^--draw: nothing/],
  [['--mass', '0g', '--net', '1g', '--material', 'PLA'], 'nothing_to_draw', /^--mass: nothing/],
  [[...draw, '--net', '100g', '--net', '50g'], 'option_twice', /--net is given twice/],
  [[...draw, '--gross', '422g', '--new', '--label', '1kg'], 'tare_below_nothing', /scale showed/],
  [
    [...draw, '--gross', '422g', '--gross-new', '300g', '--label', '1kg'],
    'tare_below_nothing',
    /scale showed/,
  ],
  [[...draw, '--gross', '1.30kg', '--gross-new', '1.10kg'], 'gained_mass', /only loses filament/],
  [
    [...draw, '--net', '100±0g', '--length', '10±0m', '--linear-density', '2.98±0'],
    'facts_contradict',
    /can not all be true/,
  ],
  [
    [
      ...draw,
      ...'--net 100g --gross 400±0g --tare 250±0g --scale step=0g,repeat=0g,gain=0%'.split(' '),
    ],
    'facts_contradict',
    /can not all be true/,
  ],
  [['--gros', '1g'], 'unknown_option', /--gros/],
  [
    ['knob.gcode', 'vase.gcode', '--net', '1g', '--stretch', '1'],
    'for_one_print',
    /^--stretch is for/,
  ],
  [['--gross'], 'option_missing_argument', /argument missing/],
]

describe.each(wrong)('check %j', (words, code, says) => {
  test(`is wrong usage: ${code}`, () => {
    const { exit, out } = runCli(['check', '--json', ...words], { cwd: folder })
    expect(exit).toBe(2)
    const { error } = errorJson.parse(JSON.parse(out))
    expect(error.code).toBe(code)
    expect(error.message).toMatch(says)
  })
})

test('without --json the sentence goes to standard error', () => {
  const { exit, out, err } = runCli(['check', '--draw', '62m', '--gross', '422 ml'])
  expect([exit, out]).toEqual([2, ''])
  expect(err).toBe(
    '--gross: "ml" is not a unit of mass taken here. Write for example 422 g.\nSee reelreckon --help, or --help after the command.\n',
  )
})

test.each([
  [[], 2],
  [['reed', 'knob.gcode'], 2],
  [['read'], 2],
  [['read', '-', '-'], 2],
  [['--version'], 0],
  [['--help'], 0],
  [['read', '--help'], 0],
  [['check', '--help'], 0],
])('%j leaves %d', (words, exit) => {
  expect(runCli(words).exit).toBe(exit)
})
