import { distance } from '@turf/turf'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isDayInSeason } from '#domain/avian/nests/day-in-season.ts'
import { planProgramme } from '#domain/avian/programme/plan-programme.ts'
import type { Programme } from '#domain/avian/programme/programme.ts'
import type { ProgrammeInput } from '#domain/avian/programme/programme-input.ts'
import type { Nest } from '#domain/feeder/birds.ts'
import { nestAt } from '../unit/avian/bird-feeder.ts'
import { eastOf, handMadeInput, requestFor } from '../unit/avian/programme/hand-made-input.ts'

const eastM = fc.integer({ min: 0, max: 6000 })
const monthDay = fc
  .record({ month: fc.integer({ min: 1, max: 12 }), day: fc.integer({ min: 1, max: 28 }) })
  .map(({ month, day }) => `${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`)

const nests: fc.Arbitrary<Nest[]> = fc
  .array(
    fc.record({
      eastM,
      seasonFrom: monthDay,
      seasonTo: monthDay,
      bufferM: fc.integer({ min: 0, max: 1500 }),
      status: fc.constantFrom('in use' as const, 'unknown' as const),
    }),
    { maxLength: 3 },
  )
  .map((all) =>
    all.map(({ eastM: at, ...nest }, index) => nestAt(eastOf(at), { id: `N-${index}`, ...nest })),
  )

const inputWith = (found: fc.Arbitrary<Nest[]>): fc.Arbitrary<ProgrammeInput> =>
  fc
    .record({
      poles: fc.array(
        fc.record({
          eastM,
          costUsd: fc.integer({ min: 50, max: 1500 }),
          rank: fc.double({ min: 0.01, max: 1, noNaN: true }),
        }),
        { minLength: 1, maxLength: 10 },
      ),
      nests: found,
    })
    .map(({ poles, nests: around }) =>
      handMadeInput(
        poles.map((pole, index) => ({ id: `P-${index}`, ...pole })),
        around,
      ),
    )

const input = inputWith(nests)
/** Money alone decides. */
const inputWithoutNests = inputWith(fc.constant([]))

const request = fc
  .record({
    budgetUsd: fc.integer({ min: 0, max: 8000 }),
    crews: fc.integer({ min: 1, max: 2 }),
    polesPerCrewDay: fc.constantFrom(0.5, 1, 3, 4),
    visitCostUsd: fc.integer({ min: 0, max: 600 }),
    sharedVisitM: fc.constantFrom(0, 800, 3000),
  })
  .map(requestFor)

const runOf = ({ rounds }: Programme, pole: string) =>
  rounds.findIndex(({ poles }) => poles.includes(pole))

/** Each is a whole programme, or two. */
const FEW_RUNS = { numRuns: 40 }

describe('A programme of random poles, nests and limits', () => {
  it('keeps to the budget, to one round a pole, and to every pole that is not closed', () => {
    fc.assert(
      fc.property(input, request, (given, asked) => {
        const programme = planProgramme(given, asked)
        const ids = programme.poles.map(({ pole }) => pole)
        expect(programme.costUsd).toBeLessThanOrEqual(asked.budgetUsd + 1e-9)
        expect(programme.rounds.flatMap(({ poles }) => poles).toSorted()).toEqual(ids.toSorted())
        for (const { pole, round } of programme.poles) expect(runOf(programme, pole)).toBe(round)
        const all = given.assessments.map(({ poleId }) => poleId).toSorted()
        expect([...ids, ...programme.leftOut.map(({ pole }) => pole)].toSorted()).toEqual(all)
      }),
      FEW_RUNS,
    )
  })

  it('sends nobody into the season of a nest whose buffer holds the pole', () => {
    fc.assert(
      fc.property(input, request, (given, asked) => {
        const places = new Map(given.feeder.poles.map(({ id, at }) => [id, at]))
        for (const { poles, earliest, latest } of planProgramme(given, asked).rounds) {
          for (const pole of poles) {
            for (const nest of given.feeder.nests) {
              const at = places.get(pole)
              if (!at || distance(at, nest.at, { units: 'meters' }) > nest.bufferM) continue
              expect(isDayInSeason(earliest, nest.seasonFrom, nest.seasonTo)).toBe(false)
              expect(isDayInSeason(latest, nest.seasonFrom, nest.seasonTo)).toBe(false)
            }
          }
        }
      }),
      FEW_RUNS,
    )
  })

  it('is worth no less with more money, and its curve never falls', () => {
    fc.assert(
      fc.property(inputWithoutNests, request, (given, asked) => {
        const less = planProgramme(given, asked)
        const more = planProgramme(given, { ...asked, budgetUsd: asked.budgetUsd + 500 })
        expect(more.reduction).toBeGreaterThanOrEqual(less.reduction - 1e-9)
        const { curve } = less
        for (const [index, point] of curve.entries()) {
          expect(point.reduction).toBeGreaterThanOrEqual(curve[index - 1]?.reduction ?? 0)
        }
      }),
      FEW_RUNS,
    )
  })

  it('pays no more ways for poles that share visits, and so is worth no less', () => {
    fc.assert(
      fc.property(inputWithoutNests, request, (given, asked) => {
        const shared = planProgramme(given, asked)
        const alone = planProgramme(given, { ...asked, sharedVisitM: 0 })
        const ways = ({ costUsd, poles }: Programme) =>
          costUsd - poles.reduce((sum, pole) => sum + pole.costUsd, 0)
        expect(shared.reduction).toBeGreaterThanOrEqual(alone.reduction - 1e-9)
        expect(ways(shared)).toBeLessThanOrEqual(asked.visitCostUsd * shared.poles.length + 1e-9)
      }),
      FEW_RUNS,
    )
  })
})
