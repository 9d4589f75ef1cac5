import type { PoleDraft } from './feeder-draft.ts'
import { roundTo } from './plane.ts'
import type { SeededRandom } from './seeded-random.ts'

/** What decides how a pole is framed. */
export interface PoleDuty {
  readonly phaseCount: number
  /** How far the line turns at the pole, degrees. */
  readonly turnDeg: number
  readonly isEnd: boolean
  readonly isTap: boolean
  /** Heaviest device on the pole, if any. */
  readonly device: 'regulator' | 'recloser' | 'switch' | 'capacitor' | 'transformer' | null
  readonly installedYear: number
}

type Framing = Pick<
  PoleDraft,
  | 'framing'
  | 'phaseToPhaseHorizontalM'
  | 'phaseToPhaseVerticalM'
  | 'phaseToGroundHorizontalM'
  | 'phaseToGroundVerticalM'
>

/** Poles set since then are framed with raptors in mind (an assumption of this invented utility). */
const RAPTOR_FRAMING_SINCE = 2006

const LONG_ARMS_SINCE = 1990
const FLAT_UNTIL = 1971

const M_PER_IN = 0.0254

/** Separations as a crew would measure them: nominal inches of the framing, give or take a little. */
export function framingOf(duty: PoleDuty, random: SeededRandom): Framing {
  const arm = armOf(duty)
  const phases = arm.between ? between(arm.between, random.between(-1.5, 1.5)) : {}
  const ground = groundGapIn(duty, random)
  return {
    framing: nameOf(duty, arm.name),
    ...phases,
    phaseToGroundHorizontalM: roundTo(ground.horizontalIn * M_PER_IN, 2),
    phaseToGroundVerticalM: roundTo(ground.verticalIn * M_PER_IN, 2),
  }
}

interface Gap {
  readonly horizontalIn: number
  readonly verticalIn: number
}

/** An arm that was set a little wide hangs, as measured, a little high. */
function between({ horizontalIn, verticalIn }: Gap, offIn: number) {
  const gap = (inches: number, off: number): number =>
    inches === 0 ? 0 : roundTo((inches + off) * M_PER_IN, 2)
  return {
    phaseToPhaseHorizontalM: gap(horizontalIn, offIn),
    phaseToPhaseVerticalM: gap(verticalIn, horizontalIn === 0 ? offIn : -offIn / 2),
  }
}

interface Arm {
  readonly name: string
  /** Between neighbouring phases; null on a pole with one. */
  readonly between: Gap | null
}

/** Outer phases below the one on the pole top, inches; raptor framing hangs the arm lower. */
const USUAL_DROP_IN = 16
const RAPTOR_DROP_IN = 28

function armOf(duty: PoleDuty): Arm {
  const { phaseCount, turnDeg, isEnd, installedYear } = duty
  if (phaseCount === 1) {
    return { name: isEnd ? 'single-phase dead-end' : 'single-phase pole top', between: null }
  }
  const isRaptorFramed = installedYear >= RAPTOR_FRAMING_SINCE
  if (turnDeg > 45) {
    const verticalIn = isRaptorFramed ? 42 : 40
    return { name: 'corner, vertical dead-ends', between: { horizontalIn: 0, verticalIn } }
  }
  if (phaseCount === 2) {
    const name = `two-phase ${suffixOf(duty)}, 8 ft arm`
    return { name, between: { horizontalIn: 84, verticalIn: 0 } }
  }
  return isEnd ? endArm(duty, isRaptorFramed) : pinArm(duty, isRaptorFramed)
}

function suffixOf({ isEnd, turnDeg }: PoleDuty): string {
  return isEnd ? 'dead-end' : turnDeg > 10 ? 'angle, double arm' : 'tangent'
}

/** All three phases end on the arm, at one height. */
function endArm({ installedYear }: PoleDuty, isRaptorFramed: boolean): Arm {
  const flat = (name: string, horizontalIn: number): Arm => ({
    name: `dead-end, ${name}`,
    between: { horizontalIn, verticalIn: 0 },
  })
  if (isRaptorFramed) return flat('11 ft arm, raptor spacing', 62)
  return installedYear >= LONG_ARMS_SINCE ? flat('10 ft arm', 56) : flat('8 ft arm', 44)
}

/** The middle phase stands on the pole top, or on the oldest poles beside the others on the arm. */
function pinArm(duty: PoleDuty, isRaptorFramed: boolean): Arm {
  const suffix = suffixOf(duty)
  const onTop = (name: string, horizontalIn: number, verticalIn: number): Arm => ({
    name: `${suffix}, ${name}`,
    between: { horizontalIn, verticalIn },
  })
  if (isRaptorFramed) {
    return onTop('10 ft arm lowered, pole-top pin, raptor spacing', 56, RAPTOR_DROP_IN)
  }
  if (duty.installedYear >= LONG_ARMS_SINCE) {
    return onTop('10 ft arm, pole-top pin', 56, USUAL_DROP_IN)
  }
  return duty.installedYear < FLAT_UNTIL
    ? onTop('flat 8 ft arm', 44, 0)
    : onTop('8 ft arm, pole-top pin', 44, USUAL_DROP_IN)
}

function nameOf({ device, isTap }: PoleDuty, arm: string): string {
  const words = {
    regulator: 'regulator platform',
    recloser: 'recloser',
    switch: 'switch pole',
    capacitor: 'capacitor rack',
    transformer: 'transformer',
  } as const
  return [arm, isTap ? 'tap' : '', device ? words[device] : ''].filter(Boolean).join(', ')
}

/** Under so much a ground wire was led to the pole top, against the standard; few poles have it. */
const RAISED_GROUND_BELOW_IN = 41.6

/** Bushings and jumpers stand close to tanks and brackets; a bare tangent has only the neutral below. */
function groundGapIn({ device, phaseCount, isTap }: PoleDuty, random: SeededRandom): Gap {
  if (device !== null && device !== 'switch') {
    return { horizontalIn: random.between(3, 7), verticalIn: random.between(8, 10) }
  }
  if (phaseCount === 1) {
    return { horizontalIn: random.between(3, 6), verticalIn: random.between(46, 60) }
  }
  const horizontalIn = isTap ? random.between(22, 34) : random.between(32, 41)
  const verticalIn = random.between(41, 54)
  const hasRaisedGround = verticalIn < RAISED_GROUND_BELOW_IN && !isTap && device === null
  return hasRaisedGround ? { horizontalIn: 9, verticalIn: 16 } : { horizontalIn, verticalIn }
}
