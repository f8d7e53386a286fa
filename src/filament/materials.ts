import { gramsPerCubicCentimetre, measured } from '../units/index.ts'
import type { Material, Range, WaterUptake } from './material.ts'
import type { Source } from './source.ts'

const from =
  (standing: Source['standing']) =>
  (where: string): Source => ({ standing, where })
const read = from('read')
const secondHand = from('read second-hand')
const memory = from('from memory')
const customary = from('common practice, no source')
const mouldersTable = read('moulders’ processing table, plastic-industry.com')

/** Figures are given in percent, as sheets print them. */
const uptake =
  (condition: WaterUptake['condition']) =>
  ([low, high]: Range, source: Source): WaterUptake => ({
    condition,
    share: [low / 100, high / 100],
    source,
  })
const after24h = uptake('24 h in water')
const saturated = uptake('saturated in water')
const atRest = uptake('at rest in air of 50 % humidity')

/**
 * What filament is made of. The spread of a density is the distance between sources and makers,
 * 1 to 2 % and more where grades differ, not the last digit of a data sheet.
 */
export const materials: readonly Material[] = [
  {
    id: 'pla',
    name: 'PLA',
    aliases: ['polylactide', 'polylactic acid'],
    density: measured(gramsPerCubicCentimetre(1.24), 0.015),
    densitySource: secondHand(
      'data sheet, NatureWorks Ingeo 2003D, 4044D and 8052D, ASTM D792 or D1505; FreeCAD cards agree',
    ),
    waterUptake: [
      after24h([0.2, 0.4], memory('weakly sourced')),
      saturated([0.5, 1.0], memory('weakly sourced')),
      atRest([0.3, 0.5], memory('weakly sourced')),
    ],
    drying: {
      celsius: [65, 85],
      hours: [4, 6],
      source: secondHand(
        'data sheet, NatureWorks Ingeo 7001D: loose pellets for moulding, not wound filament, which softens there; amorphous pellets stay below 50 °C',
      ),
    },
    hygroscopic: true,
    caution:
      'Softens from 55 to 60 °C (data sheet, Ingeo 8052D, read second-hand): as filament dry it well below the pellets’ figure. Turns brittle when damp and snaps on the reel.',
  },
  {
    id: 'petg',
    name: 'PETG',
    aliases: ['pctg', 'copolyester'],
    density: measured(gramsPerCubicCentimetre(1.27), 0.015),
    densitySource: secondHand('data sheet, Eastman copolyester film, D1505, and PCTG 0601, D792'),
    waterUptake: [
      after24h([0.13, 0.13], secondHand('data sheet, Eastman, D570/ISO 62')),
      atRest([0.1, 0.2], memory('handbook figures')),
    ],
    drying: {
      celsius: [65, 65],
      hours: [4, 4],
      source: secondHand('university resin page, dc.engr.scu.edu; not above 66 °C'),
    },
    hygroscopic: true,
    caution: 'Strings and foams when damp.',
  },
  {
    id: 'pet',
    name: 'PET',
    aliases: ['polyethylene terephthalate'],
    density: measured(gramsPerCubicCentimetre(1.36), 0.03),
    densitySource: read(
      'NIST/ICRU-37 list in Geant4 G4NistMaterialBuilder.cc 1.40 (oriented), FreeCAD material cards 1.38; amorphous 1.33 from memory: the range is crystallinity',
    ),
    waterUptake: [
      after24h([0.1, 0.2], memory('handbook figures')),
      saturated([0.5, 0.5], memory('handbook figures')),
      atRest([0.2, 0.3], memory('handbook figures')),
    ],
    drying: { celsius: [121, 135], hours: [3, 4], source: mouldersTable },
    hygroscopic: true,
    caution: 'Loses strength for good when melted damp.',
  },
  {
    id: 'abs',
    name: 'ABS',
    aliases: [],
    density: measured(gramsPerCubicCentimetre(1.05), 0.015),
    densitySource: secondHand(
      'data sheet, BASF Terluran GP-22 and GP-35 1.04; FreeCAD cards 1.06; moulders’ table 1.05',
    ),
    waterUptake: [
      saturated([0.95, 0.95], secondHand('data sheet, Terluran GP-35, similar to ISO 62')),
      atRest([0.24, 0.24], secondHand('data sheet, Terluran GP-35, similar to ISO 62')),
    ],
    drying: {
      celsius: [80, 80],
      hours: [2, 4],
      source: secondHand('data sheet, Terluran; moulders’ table 82 to 93 °C'),
    },
    hygroscopic: true,
    caution: 'Gives off styrene and other vapours when hot: air the room.',
  },
  {
    id: 'asa',
    name: 'ASA',
    aliases: [],
    density: measured(gramsPerCubicCentimetre(1.06), 0.015),
    densitySource: read('data sheet, Ineos Styrolution Luran S 778T 1.07; moulders’ table 1.05'),
    waterUptake: [
      saturated([1.65, 1.65], read('data sheet, Luran S 778T, ISO 62')),
      atRest([0.35, 0.35], read('data sheet, Luran S 778T, ISO 62')),
    ],
    drying: { celsius: [82, 88], hours: [2, 2], source: mouldersTable },
    hygroscopic: true,
    caution: 'Gives off styrene and other vapours when hot: air the room.',
  },
  {
    id: 'pc',
    name: 'PC',
    aliases: ['polycarbonate'],
    density: measured(gramsPerCubicCentimetre(1.2), 0.015),
    densitySource: secondHand(
      'data sheet, Covestro Makrolon 2405; Geant4 list and moulders’ table agree',
    ),
    waterUptake: [
      saturated([0.3, 0.3], secondHand('data sheet, Makrolon 2405, ISO 62')),
      atRest([0.12, 0.12], secondHand('data sheet, Makrolon 2405, ISO 62')),
    ],
    drying: {
      celsius: [100, 120],
      hours: [3, 4],
      source: secondHand('resin guide, imtechdesign.com; moulders’ table 121 °C'),
    },
    hygroscopic: true,
    caution:
      'Dries hotter than almost any carrier stands: take it off the reel or dry cooler for longer.',
  },
  {
    id: 'pa6',
    name: 'PA6',
    aliases: ['nylon 6', 'polyamide 6'],
    density: measured(gramsPerCubicCentimetre(1.14), 0.015),
    densitySource: secondHand(
      'data sheet, unreinforced PA6, ISO 1183, 1.13; FreeCAD cards 1.15; moulders’ table 1.13',
    ),
    waterUptake: [
      saturated([9.5, 9.5], secondHand('data sheet, unreinforced PA6, ISO 62')),
      atRest([3.0, 3.0], secondHand('data sheet, unreinforced PA6, ISO 62')),
    ],
    drying: {
      celsius: [80, 80],
      hours: [2, 6],
      source: secondHand(
        'data sheet, unreinforced PA6: 2 to 4 h for moulding, 4 to 6 h for extrusion',
      ),
    },
    hygroscopic: true,
    caution:
      'Takes up water within hours, and its mass with it: weigh it in one state, damp or dry.',
  },
  {
    id: 'pa66',
    name: 'PA66',
    aliases: ['nylon 66', 'nylon 6/6', 'polyamide 66'],
    density: measured(gramsPerCubicCentimetre(1.14), 0.015),
    densitySource: read(
      'NIST/ICRU-37 list in Geant4 G4NistMaterialBuilder.cc; moulders’ table agrees',
    ),
    waterUptake: [
      saturated([8.5, 8.5], secondHand('data sheet, BASF Ultramid A3K')),
      atRest([2.8, 2.8], memory('data sheet, BASF Ultramid A3K')),
    ],
    drying: { celsius: [79, 79], hours: [2, 4], source: mouldersTable },
    hygroscopic: true,
    caution:
      'Takes up water within hours, and its mass with it: weigh it in one state, damp or dry.',
  },
  {
    id: 'pa12',
    name: 'PA12',
    aliases: ['nylon 12', 'polyamide 12'],
    density: measured(gramsPerCubicCentimetre(1.02), 0.015),
    densitySource: secondHand('material database Matmatch, general PA12, 1.01 to 1.03'),
    waterUptake: [
      after24h([0.25, 0.25], memory('handbook figure')),
      saturated([1.5, 1.5], memory('handbook figure')),
      atRest([0.7, 0.7], memory('handbook figure')),
    ],
    drying: {
      celsius: [85, 85],
      hours: [4, 5],
      source: secondHand('resin guides, viewmold and imtechdesign.com, hot air'),
    },
    hygroscopic: true,
    caution: 'Takes up water within days.',
  },
  {
    id: 'tpu',
    name: 'TPU',
    aliases: ['thermoplastic polyurethane'],
    density: measured(gramsPerCubicCentimetre(1.2), 0.03),
    densitySource: secondHand(
      'data sheet, BASF Elastollan C78A 1.18 and S90A 1.23; ether grades 1.10 to 1.15 from memory',
    ),
    waterUptake: [
      after24h([0.1, 0.4], memory('weakly sourced')),
      saturated([1.0, 1.5], memory('weakly sourced')),
      atRest([0.4, 0.4], memory('weakly sourced')),
    ],
    drying: {
      celsius: [70, 110],
      hours: [1, 3],
      source: secondHand('makers’ pages: Elastollan S90A, Covestro, Huntsman; by hardness'),
    },
    hygroscopic: true,
    caution: 'Foams when damp. Soft grades deform on the reel when warm.',
  },
  {
    id: 'pp',
    name: 'PP',
    aliases: ['polypropylene'],
    density: measured(gramsPerCubicCentimetre(0.905), 0.012),
    densitySource: read(
      'NIST/ICRU-37 list in Geant4 G4NistMaterialBuilder.cc 0.90, FreeCAD material cards 0.916, moulders’ table 0.90',
    ),
    waterUptake: [
      after24h([0, 0.02], memory('handbook figure')),
      saturated([0.03, 0.03], memory('handbook figure')),
    ],
    drying: {
      celsius: [49, 66],
      hours: [1, 2],
      source: read('moulders’ processing table, plastic-industry.com; normally not needed'),
    },
    hygroscopic: false,
    caution: 'Shrinks and lifts from most beds: a print that lets go wastes what it drew.',
  },
  {
    id: 'hips',
    name: 'HIPS',
    aliases: ['high impact polystyrene', 'ps', 'polystyrene'],
    density: measured(gramsPerCubicCentimetre(1.04), 0.015),
    densitySource: secondHand(
      'resin table (D792) 1.04, document library sheet 1.03; moulders’ table 1.05',
    ),
    waterUptake: [after24h([0.01, 0.1], secondHand('resin table, D570'))],
    drying: {
      celsius: [66, 77],
      hours: [1, 2],
      source: read('moulders’ processing table, plastic-industry.com; not always needed'),
    },
    hygroscopic: false,
    caution: 'Gives off styrene and other vapours when hot: air the room.',
  },
  {
    id: 'pva',
    name: 'PVA',
    aliases: ['polyvinyl alcohol'],
    density: measured(gramsPerCubicCentimetre(1.26), 0.04),
    densitySource: read(
      'NIST/ICRU-37 list in Geant4 G4NistMaterialBuilder.cc 1.30; handbooks 1.19 to 1.31 with hydrolysis and water, from memory',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution:
      'Dissolves in water and takes it from air without limit: its mass on the scale is no measure unless it was kept dry. No authoritative drying figure was found; overheated it chars in the nozzle.',
  },
  {
    id: 'pvb',
    name: 'PVB',
    aliases: ['polyvinyl butyral'],
    density: measured(gramsPerCubicCentimetre(1.1), 0.02),
    densitySource: read(
      'NIST/ICRU-37 list in Geant4 G4NistMaterialBuilder.cc 1.12; 1.07 to 1.10 for resins, from memory',
    ),
    waterUptake: [
      after24h([4, 10], secondHand('data sheet, Kuraray Mowital B30H 4 to 6 %, B30T 6 to 10 %')),
    ],
    hygroscopic: true,
    caution:
      'No authoritative drying figure was found. Smoothing it with alcohol is a fire hazard of its own.',
  },
  {
    id: 'peek',
    name: 'PEEK',
    aliases: [],
    density: measured(gramsPerCubicCentimetre(1.28), 0.02),
    densitySource: memory('Victrex 450G, 1.30 crystalline and 1.26 amorphous'),
    waterUptake: [
      after24h([0.07, 0.07], memory('Victrex 450G')),
      saturated([0.45, 0.45], memory('Victrex 450G')),
    ],
    drying: { celsius: [149, 177], hours: [2, 16], source: mouldersTable },
    hygroscopic: true,
    caution:
      'Dries far hotter than carriers and kitchen appliances stand. Hot parts of the machine burn at once; overheated material gives off toxic gases.',
  },
  {
    id: 'pei',
    name: 'PEI',
    aliases: ['polyetherimide'],
    density: measured(gramsPerCubicCentimetre(1.28), 0.015),
    densitySource: secondHand('plastics handbook, 1.27 to 1.30'),
    waterUptake: [
      after24h([0.25, 0.25], memory('Ultem 1000')),
      saturated([1.25, 1.25], memory('Ultem 1000')),
    ],
    drying: {
      celsius: [149, 149],
      hours: [2, 15],
      source: read(
        'moulders’ processing table, plastic-industry.com; Engineering Plastics Handbook (read second-hand): stay 15 °C below softening',
      ),
    },
    hygroscopic: true,
    caution:
      'Dries far hotter than carriers and kitchen appliances stand. Hot parts of the machine burn at once.',
  },
  {
    id: 'pom',
    name: 'POM',
    aliases: ['acetal', 'polyoxymethylene'],
    density: measured(gramsPerCubicCentimetre(1.415), 0.015),
    densitySource: secondHand(
      'data sheet, Celanese Hostaform C 9021 1.41 (copolymer); homopolymer 1.42, FreeCAD material cards',
    ),
    waterUptake: [
      saturated([0.65, 0.65], secondHand('data sheet, Hostaform C 9021, ISO 62')),
      atRest([0.2, 0.2], secondHand('data sheet, Hostaform C 9021, ISO 62')),
    ],
    drying: {
      celsius: [71, 85],
      hours: [1, 4],
      source: read('moulders’ processing table, plastic-industry.com; not always needed'),
    },
    hygroscopic: false,
    caution:
      'Overheated it gives off formaldehyde: air the room, keep to the maker’s temperatures.',
  },
  {
    id: 'pmma',
    name: 'PMMA',
    aliases: ['acrylic'],
    density: measured(gramsPerCubicCentimetre(1.18), 0.015),
    densitySource: read(
      'NIST/ICRU-37 list in Geant4 G4NistMaterialBuilder.cc 1.19, FreeCAD material cards 1.17, moulders’ table 1.19',
    ),
    waterUptake: [
      after24h([0.3, 0.3], secondHand('journal article PMC7388655')),
      saturated([2.1, 2.1], memory('handbook figure')),
      atRest([0.6, 0.6], memory('handbook figure')),
    ],
    drying: {
      celsius: [90, 90],
      hours: [2, 4],
      source: read('Autodesk Inventor help, material notes; moulders’ table 74 to 93 °C'),
    },
    hygroscopic: true,
    caution: 'Gives off acrid vapour when hot: air the room.',
  },
  {
    id: 'pla-cf',
    name: 'PLA with carbon fibre',
    aliases: ['carbon fibre pla'],
    densitySource: customary(
      'no default: filler and voids decide; wood-filled is often lighter than either part',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution:
      'Wears brass nozzles. Cut ends and sanding dust carry fibres: no bare skin, no breathing of dust.',
  },
  {
    id: 'pla-wood',
    name: 'PLA with wood',
    aliases: ['wood pla', 'wood'],
    densitySource: customary(
      'no default: filler and voids decide; wood-filled is often lighter than either part',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution: 'Chars and blocks the nozzle when held hot. Takes up water with its wood.',
  },
  {
    id: 'pla-metal',
    name: 'PLA with metal powder',
    aliases: ['metal pla', 'bronze pla', 'copper pla', 'steel pla'],
    densitySource: customary(
      'no default: filler and voids decide; wood-filled is often lighter than either part',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution:
      'Up to three times as heavy as PLA: never reckon it with the density of PLA. Sanding dust is metal dust.',
  },
  {
    id: 'petg-cf',
    name: 'PETG with carbon fibre',
    aliases: ['carbon fibre petg'],
    densitySource: customary(
      'no default: filler and voids decide; wood-filled is often lighter than either part',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution:
      'Wears brass nozzles. Cut ends and sanding dust carry fibres: no bare skin, no breathing of dust.',
  },
  {
    id: 'pa-cf',
    name: 'PA with carbon fibre',
    aliases: ['nylon cf', 'carbon fibre nylon'],
    densitySource: customary(
      'no default: filler and voids decide; wood-filled is often lighter than either part',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution:
      'Wears brass nozzles. Cut ends and sanding dust carry fibres: no bare skin, no breathing of dust. Takes up water within hours, and its mass with it.',
  },
  {
    id: 'pa-gf',
    name: 'PA with glass fibre',
    aliases: ['nylon gf', 'glass fibre nylon'],
    densitySource: customary(
      'no default: filler and voids decide; wood-filled is often lighter than either part',
    ),
    waterUptake: [],
    hygroscopic: true,
    caution:
      'Wears brass nozzles. Cut ends and sanding dust carry fibres: no bare skin, no breathing of dust. Takes up water within hours, and its mass with it.',
  },
]
