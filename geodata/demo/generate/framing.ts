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
  readonly device: 'regulator' | 'switchgear' | 'capacitor' | 'transformer' | null
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

const M_PER_IN = 0.0254

/** Separations as a crew would measure them: nominal inches of the framing, give or take a little. */
export function framingOf(duty: PoleDuty, random: SeededRandom): Framing {
  const arm = armOf(duty)
  const gap = (inches: number): number =>
    inches === 0 ? 0 : roundTo((inches + random.between(-1.5, 1.5)) * M_PER_IN, 2)
  const ground = groundGapIn(duty, random)
  return {
    framing: nameOf(duty, arm.name),
    ...(arm.horizontalIn !== null && { phaseToPhaseHorizontalM: gap(arm.horizontalIn) }),
    ...(arm.verticalIn !== null && { phaseToPhaseVerticalM: gap(arm.verticalIn) }),
    phaseToGroundHorizontalM: roundTo(ground.horizontalIn * M_PER_IN, 2),
    phaseToGroundVerticalM: roundTo(ground.verticalIn * M_PER_IN, 2),
  }
}

interface Arm {
  readonly name: string
  readonly horizontalIn: number | null
  readonly verticalIn: number | null
}

function armOf({ phaseCount, turnDeg, isEnd, installedYear }: PoleDuty): Arm {
  const isRaptorFramed = installedYear >= RAPTOR_FRAMING_SINCE
  if (phaseCount === 1) {
    return {
      name: isEnd ? 'single-phase dead-end' : 'single-phase pole top',
      horizontalIn: null,
      verticalIn: null,
    }
  }
  if (turnDeg > 45) return { name: 'corner, vertical dead-ends', horizontalIn: 0, verticalIn: 40 }
  const suffix = isEnd ? 'dead-end' : turnDeg > 10 ? 'angle, double arm' : 'tangent'
  if (phaseCount === 2) {
    return { name: `two-phase ${suffix}, 8 ft arm`, horizontalIn: 84, verticalIn: 0 }
  }
  if (isRaptorFramed)
    return { name: `${suffix}, 10 ft arm, raptor spacing`, horizontalIn: 62, verticalIn: 0 }
  return installedYear >= 1990
    ? { name: `${suffix}, 10 ft arm`, horizontalIn: 56, verticalIn: 0 }
    : { name: `${suffix}, 8 ft arm`, horizontalIn: 44, verticalIn: 0 }
}

function nameOf({ device, isTap }: PoleDuty, arm: string): string {
  const words = {
    regulator: 'regulator platform',
    switchgear: 'switch pole',
    capacitor: 'capacitor rack',
    transformer: 'transformer',
  } as const
  return [arm, isTap ? 'tap' : '', device ? words[device] : ''].filter(Boolean).join(', ')
}

/** Jumpers and bushings stand close to tanks and brackets; a bare tangent has only the neutral below. */
function groundGapIn(
  { device, phaseCount, isTap }: PoleDuty,
  random: SeededRandom,
): { horizontalIn: number; verticalIn: number } {
  if (device === 'transformer') {
    return { horizontalIn: random.between(12, 18), verticalIn: random.between(13, 20) }
  }
  if (device !== null) {
    return { horizontalIn: random.between(12, 20), verticalIn: random.between(14, 20) }
  }
  if (phaseCount === 1) {
    return { horizontalIn: random.between(3, 6), verticalIn: random.between(46, 60) }
  }
  return {
    horizontalIn: isTap ? random.between(22, 34) : random.between(32, 41),
    verticalIn: random.between(41, 54),
  }
}
