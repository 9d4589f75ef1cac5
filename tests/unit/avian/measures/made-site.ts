import type { z } from 'zod'
import { Equipment } from '#domain/feeder/equipment.ts'
import { Pole } from '#domain/feeder/pole.ts'
import type { Phase } from '#domain/units/phases.ts'
import type { PoleSite, PoleTop } from '../../../../server/domain/avian/pole-top/pole-top.ts'
import { PoleTopChoice } from '../../../../server/domain/avian/pole-top/pole-top-choice.ts'
import { poleTopOf } from '../../../../server/domain/avian/pole-top/pole-top-of.ts'

export interface SiteSketch {
  readonly phases: readonly Phase[]
  readonly equipment?: readonly z.input<typeof Equipment>[]
  readonly pole?: Partial<z.input<typeof Pole>>
  readonly choice?: Partial<z.input<typeof PoleTopChoice>>
}

export function madeSite({ phases, equipment = [], pole, choice }: SiteSketch): PoleSite {
  return {
    pole: Pole.parse({ id: 'P-1', at: [-107, 43], ...pole }),
    phases,
    tapPhases: [],
    equipment: equipment.map((each) => Equipment.parse(each)),
    choice: choice ? PoleTopChoice.parse({ pole: 'P-1', ...choice }) : null,
  }
}

export function topOf(site: PoleSite): PoleTop {
  const top = poleTopOf(site)
  if (!top) throw new Error('Expected a pole top that can be drawn, got none.')
  return top
}

const fitting = (kind: 'cutout' | 'arrester', phases: 'A' | 'ABC') =>
  ({ id: kind, pole: 'P-1', kind, phases, count: phases.length }) as const

const transformer = (phases: 'A' | 'ABC') =>
  ({ id: 'T1', pole: 'P-1', kind: 'transformer', phases, ratingKva: 25 * phases.length }) as const

/** Bare three-phase pole with an 8-ft arm and the middle phase on the pole top. */
export const TANGENT = madeSite({
  phases: ['A', 'B', 'C'],
  choice: { framing: 'arm and pole-top pin', groundWire: 'to the neutral' },
})

export const FARM_TRANSFORMER = madeSite({
  phases: ['A'],
  equipment: [transformer('A'), fitting('cutout', 'A'), fitting('arrester', 'A')],
  choice: { framing: 'pole-top pin' },
})

export const PUMP_TRANSFORMERS = madeSite({
  phases: ['A', 'B', 'C'],
  equipment: [transformer('ABC'), fitting('cutout', 'ABC'), fitting('arrester', 'ABC')],
  choice: { framing: 'arm and pole-top pin' },
})

export const REGULATORS = madeSite({
  phases: ['A', 'B', 'C'],
  equipment: [
    {
      id: 'R1',
      pole: 'P-1',
      span: 'S-1',
      kind: 'regulator',
      phases: 'ABC',
      windingType: 'B',
      ptRatio: 60,
      ctPrimaryA: 200,
      bandCentreV: 122,
      bandwidthV: 2,
    },
  ],
  choice: { framing: 'arm and pole-top pin' },
})
