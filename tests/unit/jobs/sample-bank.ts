import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { feederSketch, plainLineType } from '../../support/feeder-sketch.ts'

/** A bank at the near end of the second of three spans, 7200 V to neutral, with R and X at 0. */
export const SAMPLE_BANK: Regulator = {
  kind: 'regulator',
  id: 'REG-P2',
  pole: 'P2',
  span: 'P2:P3',
  phases: 'ABC',
  connection: 'wye',
  windingType: 'B',
  ratingKva: 167,
  ratingA: 219,
  ptRatio: 60,
  ctPrimaryA: 250,
  bandCentreV: 122,
  bandwidthV: 2,
  rV: 0,
  xV: 0,
  delayS: 45,
  tapA: 0,
  tapB: 0,
  tapC: 0,
  maxRaise: 16,
  maxLower: 16,
}

export function sampleWork(change: Partial<Regulator> = {}): BankWork {
  return { regulator: { ...SAMPLE_BANK, ...change }, neutralV: 7199.6, loopOhm: 0.1 }
}

/** Three spans of a line; phase A draws most, and all of it stands beyond the bank. */
export function sampleFeeder(): Feeder {
  return feederSketch({
    lineTypes: [plainLineType('line', 0.3, 0.6)],
    cases: [
      { id: 'peak', name: 'Peak' },
      { id: 'light', name: 'Light load', loadFactor: 0.1 },
    ],
    spans: [
      { id: 'P1:P2', from: 'P1', to: 'P2', phases: 'ABC', lineType: 'line', lengthM: 6000 },
      { id: 'P2:P3', from: 'P2', to: 'P3', phases: 'ABC', lineType: 'line', lengthM: 4000 },
      { id: 'P3:P4', from: 'P3', to: 'P4', phases: 'ABC', lineType: 'line', lengthM: 4000 },
    ],
    loads: [
      {
        id: 'L4',
        pole: 'P4',
        kwA: 700,
        kwB: 500,
        kwC: 400,
        kvarA: 300,
        kvarB: 200,
        kvarC: 150,
        constantPower: 0.5,
        constantCurrent: 0.2,
        constantImpedance: 0.3,
        customers: 40,
      },
    ],
  })
}
