import { describe, expect, it } from 'vitest'
import type { JobSummary } from '#contract/jobs.ts'
import { Regulator } from '#domain/feeder/equipment.ts'
import { equipmentFeatures } from '../../../web/map/feeder/feeder-features.ts'
import { SYMBOL_PATHS, SYMBOL_WORDS } from '../../../web/map/feeder/symbols.ts'
import { takenOutBy } from '../../../web/planner/taken-out-by.ts'
import { equipmentInWords } from '../../../web/state/equipment-in-words.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { bankedFeeder } from '../../support/banked-feeder.ts'

const inService = bankedFeeder()
const [standing] = inService.equipment
if (standing?.kind !== 'regulator') throw new Error('Expected a bank.')
const bypassed = Regulator.parse({ ...standing, state: 'bypassed' })

describe('a bank that stands bypassed', () => {
  it('has a symbol of another shape on the map, and words of its own in the legend', () => {
    const symbolsOf = (bank: Regulator) =>
      equipmentFeatures(modelFeeder({ ...inService, equipment: [bank] }))
        .features.map(({ properties }) => properties.symbol)
        .filter((symbol) => symbol.startsWith('regulator'))
    expect(symbolsOf(standing)).toEqual(['regulator'])
    expect(symbolsOf(bypassed)).toEqual(['regulator-bypassed'])
    expect(SYMBOL_PATHS['regulator-bypassed']).not.toContain(SYMBOL_PATHS.regulator)
    expect(SYMBOL_WORDS['regulator-bypassed']).toBe('Voltage regulator, bypassed')
  })

  it('is as large on the map, and seen from as far, as one in service', () => {
    const [feature] = equipmentFeatures(
      modelFeeder({ ...inService, equipment: [bypassed] }),
    ).features.filter(({ properties }) => properties.id === bypassed.id)
    expect(feature?.properties).toMatchObject({ isMain: true, rank: 1 })
  })

  it('is called bypassed where it is described', () => {
    expect(equipmentInWords(bypassed)).toBe(
      'Voltage regulator bank, bypassed (R3), phases A, B and C, 76.2 kVA a unit, type B, wye; the line runs past it, and it holds no voltage; taps as recorded A neutral, B neutral, C neutral',
    )
    expect(equipmentInWords(standing)).not.toContain('bypassed')
  })
})

describe('what is said of the units of a bank', () => {
  it('names serial numbers of its phases alone, and a switch to the neutral where there is one', () => {
    const words = equipmentInWords({
      ...standing,
      phases: 'AC',
      neutralSide: 'switched',
      serialA: '4417',
      serialB: '4418',
      serialC: '4419',
    })
    expect(words).toContain('; a switch between each unit and the neutral')
    expect(words).toMatch(/; serial numbers 4417 \(A\), 4419 \(C\)$/)
    expect(words).not.toContain('4418')
  })
})

describe('the job that left a bank bypassed', () => {
  const job = (
    kind: JobSummary['kind'],
    stateSince: string,
    changes: Partial<Pick<JobSummary, 'state' | 'poles' | 'origin'>> = {},
  ) => ({
    kind,
    stateSince,
    state: 'closed' as const,
    poles: ['P3'],
    origin: { kind: 'by hand' as const, jobKind: kind, poles: ['P3'], regulatorId: 'R3' },
    ...changes,
  })
  const out = job('take a bank out of service', '2026-05-12T09:00:00Z')

  it('is the closed one that took it out', () => {
    expect(takenOutBy([out], bypassed)).toBe(out)
  })
  it('is not known where the bank was returned since, or nothing was closed', () => {
    const back = job('return a bank to service', '2026-06-01T09:00:00Z')
    expect(takenOutBy([out, back], bypassed)).toBeNull()
    expect(takenOutBy([{ ...out, state: 'work done' as const }], bypassed)).toBeNull()
    expect(takenOutBy([], bypassed)).toBeNull()
  })
  it('is none at another pole, nor of another bank at the same pole', () => {
    expect(takenOutBy([{ ...out, poles: ['P2'] }], bypassed)).toBeNull()
    const other = { ...out, origin: { ...out.origin, regulatorId: 'R4' } }
    expect(takenOutBy([other], bypassed)).toBeNull()
  })
})
