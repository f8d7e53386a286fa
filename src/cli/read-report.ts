import type { ReadPrintJson, ReadToolJson } from '../contract/index.ts'
import type { PrintReading } from '../print/index.ts'
import type { NominalFilament } from '../service/index.ts'
import { formatMass, grams, measured } from '../units/index.ts'
import { questions, remarks } from './findings-report.ts'
import { sayCount, sayLength, upTo } from './say.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { sayTaking } from './time-sentences.ts'
import { wrap } from './wrap.ts'

const bars = '▁▂▃▄▅▆▇█'
const columns = 60

/** The print as a sheet of text: what it draws first, then layers, then what to know of it. */
export const readReport = (
  terminal: Terminal,
  print: ReadPrintJson,
  reading: PrintReading,
  filament: NominalFilament | undefined,
): string => {
  const { file, member, tools, layers, stops, findings } = print
  const name = harmless(member === null ? file : `${file}, ${member}`)
  const differ = print.families.length > 1
  const draws =
    tools.length === 0
      ? ['  draws nothing']
      : tools.map((tool) => drawLine(tool, tools.length > 1, filament))
  const asked = questions(findings)
  const noted = remarks(findings)
  return [
    paint(terminal, 'strong', wrap(name, '', '')),
    ...draws,
    ...(differ ? familyLines(print) : []),
    ...(asked.length > 0 ? ['', ...asked] : []),
    '',
    ...layerLines(layers),
    ...timeLines(print),
    ...profile(terminal, reading),
    ...stops
      .slice(0, 8)
      .map(({ kind, command, layer, line }) =>
        wrap(
          `stops for ${kind === 'change' ? 'a reel change' : kind === 'pause' ? 'a pause' : 'the end'} (${harmless(command)}) in layer ${layer}, line ${line}`,
          '  ',
          '    ',
        ),
      ),
    ...(stops.length > 8 ? [`  and ${sayCount(stops.length - 8, 'more stop')}`] : []),
    ...(noted.length > 0 ? ['', ...noted] : []),
    '',
    paint(
      terminal,
      'faint',
      `  ${sayCount(print.lines, 'line')}, ${sayCount(print.bytes, 'byte')}${
        print.container === 'plain'
          ? ''
          : ` of ${print.container}, ${sayCount(print.code_bytes, 'byte')} unpacked`
      }`,
    ),
    paint(terminal, 'faint', `  sha256 ${print.sha256}`),
    '',
  ].join('\n')
}

const drawLine = (
  tool: ReadToolJson,
  several: boolean,
  filament: NominalFilament | undefined,
): string => {
  const mass = tool.nominal_mass_g
  const grammes =
    mass === null || filament === undefined
      ? ''
      : `, ${formatMass(measured(grams(mass.value), mass.u))} (${filament.name})`
  return [
    `  ${several ? `T${tool.tool}  ` : ''}draws ${sayLength(tool.peak_mm)}${grammes}`,
    `  ${several ? '    ' : ''}      ${sayLength(tool.start_macro_mm)} of it before the first layer, ${sayLength(tool.net_mm)} net at the end`,
  ].join('\n')
}

const familyLines = ({ families }: ReadPrintJson): readonly string[] =>
  families.map(({ families: names, tools }) => {
    const draws = tools.map(
      ({ tool, peak_mm }) => `${tools.length > 1 ? `T${tool} ` : ''}${sayLength(peak_mm)}`,
    )
    return wrap(`under ${names.join(', ')}: ${draws.join(', ') || 'nothing'}`, '  ', '    ')
  })

const layerLines = ({
  count,
  passes,
  spiral,
  step_mm: step,
  top_mm: top,
}: ReadPrintJson['layers']): readonly string[] => {
  if (count === 0) return ['  no layers found']
  const to = `to z ${upTo(top ?? 0, 2)} mm`
  const what =
    spiral && count > 1
      ? `one spiral ${to}, ${sayCount(count, 'turn')} or layers`
      : `${sayCount(count, 'layer')} ${to}${step > 0 ? `, ${upTo(step, 3)} mm each` : ''}`
  return [`  ${what}${passes > 1 ? `, ${passes} objects one after another` : ''}`]
}

const timeLines = ({ time }: ReadPrintJson): readonly string[] => {
  const { early_s, likely_s, late_s } = time?.takes ?? {}
  if (early_s == null || likely_s == null || late_s == null) return []
  return [`  takes about ${sayTaking({ early_s, likely_s, late_s })}`]
}

/** Draw over the layers, all tools together: where the filament goes. */
const profile = ({ unicode }: Terminal, { families, layers }: PrintReading): readonly string[] => {
  const tools = families[0]?.tools ?? []
  if (!unicode || layers.count < 2 || tools.length === 0) return []
  const width = Math.min(columns, layers.count)
  const drawn = (layer: number): number =>
    tools.reduce(
      (sum, { layerEnd_mm: ends }) => sum + (layer === 0 ? 0 : (ends[layer - 1] ?? 0)),
      0,
    )
  const edge = (column: number): number => Math.round((column * layers.count) / width)
  const parts = Array.from({ length: width }, (_, column) => {
    const [from, to] = [edge(column), edge(column + 1)]
    const before =
      from === 0 ? tools.reduce((sum, tool) => sum + tool.startMacro_mm, 0) : drawn(from)
    return (drawn(to) - before) / (to - from)
  })
  const most = Math.max(...parts)
  if (!(most > 0)) return []
  const line = parts.map((part) => bars[Math.min(7, Math.floor((8 * part) / most))]).join('')
  const ends = width < 12 ? 'first to last' : `${'first'.padEnd(width - 4)}last`
  return [`  draw by layer  ${line}`, `                 ${ends}`]
}
