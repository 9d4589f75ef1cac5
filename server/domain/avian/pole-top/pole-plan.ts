import type { Phase } from '#domain/units/phases.ts'
import type { Equipment } from '../../feeder/equipment.ts'
import type { Framing } from './framing.ts'
import { type FramingWords, framingInWords } from './framing-words.ts'
import type { PoleSite } from './pole-top.ts'
import type { PoleTopChoice } from './pole-top-choice.ts'
import {
  type DimensionsIn,
  type Hung,
  measuredDimensions,
  recordedDimensions,
  usualDimensions,
} from './usual-dimensions.ts'

/** All that the drawing of one pole goes by, decided. */
export interface PolePlan {
  readonly framing: Framing
  readonly phases: readonly Phase[]
  readonly tapPhases: readonly Phase[]
  readonly equipment: readonly Equipment[]
  readonly hung: Hung
  readonly dimensions: DimensionsIn
  readonly poleConducts: boolean
  readonly armMaterial: NonNullable<PoleTopChoice['armMaterial']>
  readonly armConducts: boolean
  readonly isArmDouble: boolean
  readonly groundWire: NonNullable<PoleTopChoice['groundWire']>
  readonly regulatorConnection: NonNullable<PoleTopChoice['regulatorConnection']>
  readonly regulatorMounting: NonNullable<PoleTopChoice['regulatorMounting']>
  readonly assumptions: readonly string[]
}

/** Null where neither the line nor equipment says which phases the pole carries. */
export function polePlan(site: PoleSite): PolePlan | null {
  const { pole, choice, equipment } = site
  const phases = site.phases.length > 0 ? site.phases : phasesOfEquipment(equipment)
  if (phases.length === 0) return null
  const words = framingInWords(pole.framing ?? '', phases.length)
  const framing = choice?.framing ?? words.framing
  const regulatorMounting = mountingOf(site)
  const recorded = recordedDimensions(pole, framing, phases.length)
  const measured = measuredDimensions(choice)
  const poleConducts = pole.material === 'steel' || pole.material === 'concrete'
  const armMaterial = choice?.armMaterial ?? words.armMaterial ?? (poleConducts ? 'steel' : 'wood')
  const hung: Hung = {
    regulators: equipment.some(({ kind }) => kind === 'regulator') ? regulatorMounting : null,
    hasTanks: equipment.some(({ kind }) => kind === 'riser' || WITH_TANK.includes(kind)),
    hasTap: site.tapPhases.length > 0,
  }
  const usual = usualDimensions(framing, phases.length, words.armFt, hung)
  return {
    framing,
    phases,
    tapPhases: site.tapPhases,
    equipment,
    hung,
    dimensions: fitted({ ...usual, ...recorded, ...measured }, framing, measured),
    poleConducts,
    armMaterial,
    armConducts: armMaterial === 'steel',
    isArmDouble: words.isArmDouble || framing === 'double dead-end arm',
    groundWire: choice?.groundWire ?? (isGrounded(equipment) ? 'to the neutral' : 'none'),
    regulatorConnection: choice?.regulatorConnection ?? 'wye',
    regulatorMounting,
    assumptions: assumptionsOf(site, words, framing, { ...recorded, ...measured }),
  }
}

const WITH_TANK: readonly Equipment['kind'][] = [
  'transformer',
  'regulator',
  'capacitor',
  'recloser',
]
const WITH_GROUND: readonly Equipment['kind'][] = [...WITH_TANK, 'arrester', 'cutout', 'riser']

function isGrounded(equipment: readonly Equipment[]): boolean {
  return equipment.some(({ kind }) => WITH_GROUND.includes(kind))
}

function phasesOfEquipment(equipment: readonly Equipment[]): Phase[] {
  const named = equipment.map(({ phases }) => phases).join('')
  return (['A', 'B', 'C'] as const).filter((phase) => named.includes(phase))
}

function mountingOf({ choice, pole, equipment }: PoleSite): PolePlan['regulatorMounting'] {
  if (choice?.regulatorMounting) return choice.regulatorMounting
  if (/platform/i.test(pole.framing ?? '')) return 'platform'
  const units = equipment.find(({ kind }) => kind === 'regulator')?.phases.length ?? 0
  return units > 1 ? 'platform' : 'on the pole'
}

/** Top of an arm is that far below the pole top at least: it must be bolted to the pole. */
const ARM_BELOW_TOP_LEAST_IN = 2

/**
 * Without a measured pin the middle phase stands no higher than lets the arm be bolted to the pole;
 * the differences between phases stay as they are.
 */
function fitted(
  dimensions: DimensionsIn,
  framing: Framing,
  measured: Partial<DimensionsIn>,
): DimensionsIn {
  if (framing !== 'arm and pole-top pin' || measured.topPinIn !== undefined) return dimensions
  const { topPinIn, outerDropIn, armPinIn } = dimensions
  return {
    ...dimensions,
    topPinIn: Math.min(topPinIn, outerDropIn + armPinIn - ARM_BELOW_TOP_LEAST_IN),
  }
}

function assumptionsOf(
  { pole, phases, choice, equipment, tapPhases }: PoleSite,
  words: FramingWords,
  framing: Framing,
  known: Partial<DimensionsIn>,
): string[] {
  const hasArm = framing.includes('arm')
  const conducts = pole.material === 'steel' || pole.material === 'concrete'
  const said: (string | false)[] = [
    phases.length === 0 && 'No span ends here; the phases are those of the equipment.',
    !choice?.framing &&
      !words.isNamed &&
      (pole.framing
        ? `The framing “${pole.framing}” is not known here; drawn as ${framing} by the number of phases.`
        : `No framing is recorded; drawn as ${framing} by the number of phases.`),
    (pole.material === undefined || pole.material === 'unknown') &&
      'The material of the pole is not recorded; taken for wood.',
    hasArm &&
      !choice?.armMaterial &&
      !words.armMaterial &&
      (conducts
        ? 'The material of the arm is not recorded; on a pole that conducts it is taken for steel and grounded.'
        : 'The material of the arm is not recorded; taken for wood.'),
    hasArm &&
      words.armFt === null &&
      known.outerPhaseIn === undefined &&
      'The length of the arm is not recorded; drawn as 8 ft.',
    phases.length > 1 &&
      'Which phase stands where is not recorded; drawn as A, B, C from left to right or from the top.',
    !choice?.groundWire &&
      !conducts &&
      (isGrounded(equipment)
        ? 'A ground wire is drawn up to the brackets and tanks of the equipment, which are taken to be bonded to it.'
        : 'No ground wire is drawn above the neutral.'),
    known.neutralBelowTopIn === undefined && 'A neutral is drawn at its usual place.',
    equipment.some(({ kind }) => kind === 'guy') &&
      'Guys are drawn without an insulator, and so as grounded.',
    equipment.some(({ kind }) => kind === 'regulator') &&
      !choice?.regulatorMounting &&
      !/platform/i.test(pole.framing ?? '') &&
      'How the regulators are mounted is not recorded.',
    tapPhases.length > 0 && 'The tap is drawn as dead-ended on the pole below the line.',
    'Dimensions that nobody measured are those of common practice, without a source.',
  ]
  return said.filter((sentence) => sentence !== false)
}
