import { describe, expect, it } from 'vitest'
import { planProgramme } from '#domain/avian/programme/plan-programme.ts'
import { Programme } from '#domain/avian/programme/programme.ts'
import { nestAt } from '../bird-feeder.ts'
import { eastOf, type HandMade, handMadeInput, requestFor } from './hand-made-input.ts'

const APART_M = 5000
/** Poles that are a visit of their own each. */
const lonely = (poles: readonly Omit<HandMade, 'eastM'>[]): HandMade[] =>
  poles.map((pole, index) => ({ ...pole, eastM: index * APART_M }))
const idsOf = ({ poles }: Programme) => poles.map(({ pole }) => pole).toSorted()
const whyOf = ({ leftOut }: Programme, id: string) => leftOut.find(({ pole }) => pole === id)?.why

describe('a programme', () => {
  it('takes two cheap poles instead of a dear one that is worth less than both', () => {
    const input = handMadeInput(
      lonely([
        { id: 'dear', costUsd: 1500, rank: 0.8 },
        { id: 'cheap-1', costUsd: 600, rank: 0.5 },
        { id: 'cheap-2', costUsd: 600, rank: 0.5 },
      ]),
    )
    const programme = planProgramme(input, requestFor({ budgetUsd: 1900 }))
    expect(idsOf(programme)).toEqual(['cheap-1', 'cheap-2'])
    expect(programme).toMatchObject({ costUsd: 1900, reduction: 1, reductionPossible: 1.8, gap: 0 })
    expect(whyOf(programme, 'dear')).toMatch(/^The money takes away more elsewhere/)
  })

  it('pays one way for poles near each other, and so reaches more of them', () => {
    const beside = [0, 100, 200].map((eastM, index) => ({ id: `P-${index}`, eastM, costUsd: 500 }))
    const near = planProgramme(handMadeInput(beside), requestFor({ budgetUsd: 1850 }))
    expect(near.poles).toHaveLength(3)
    expect(near.costUsd).toBe(1850)
    const apart = planProgramme(
      handMadeInput(beside),
      requestFor({ budgetUsd: 1850, sharedVisitM: 0 }),
    )
    expect(apart.poles).toHaveLength(2)
  })

  it('skips a pole that waits for a regulator job, and says so', () => {
    const input = handMadeInput(lonely([{ id: 'P-1' }, { id: 'P-2' }]))
    const programme = planProgramme(input, requestFor({ waitingForJob: ['P-1'] }))
    expect(idsOf(programme)).toEqual(['P-2'])
    expect(whyOf(programme, 'P-1')).toContain('Waits for a regulator job')
  })

  it('leaves closed poles out of sight and says of unknown ones to look at them first', () => {
    const input = handMadeInput(
      lonely([
        { id: 'done', state: 'covered' },
        { id: 'wide', state: 'separated' },
        { id: 'unseen', state: 'unknown' },
        { id: 'open' },
      ]),
    )
    const programme = planProgramme(input, requestFor())
    expect(idsOf(programme)).toEqual(['open'])
    expect(programme.leftOut.map(({ pole }) => pole)).toEqual(['unseen'])
    expect(whyOf(programme, 'unseen')).toContain('look at it first')
  })

  it('counts only what its measures close, and says what stays open', () => {
    const [whole, part] = [[], ['a1~b1']].map((leftOpen) =>
      planProgramme(
        handMadeInput([{ id: 'P-1', eastM: 0, shares: [0.2, 0.2], leftOpen }]),
        requestFor(),
      ),
    )
    expect(whole?.reduction).toBe(0.5)
    expect(part?.reduction).toBeGreaterThan(0)
    expect(part?.reduction).toBeLessThan(0.25)
    expect(part?.poles[0]?.notes).toEqual(['1 pair stays open: no measure closes it.'])
  })

  it('keeps out of the season of a nest, with the permit to ask for', () => {
    const nest = nestAt(eastOf(300))
    const programme = planProgramme(handMadeInput([{ id: 'P-1', eastM: 0 }], [nest]), requestFor())
    expect(programme.rounds).toMatchObject([{ earliest: '2027-07-16', latest: '2027-12-14' }])
    expect(programme.poles[0]?.notes.join(' ')).toMatch(/permit.*Only 16 Jul 2027 to 14 Dec 2027/)
  })

  it('leaves out a pole that nests hold on every day, and says which', () => {
    const input = handMadeInput([{ id: 'P-1', eastM: 0 }], [nestAt(eastOf(300))])
    const programme = planProgramme(input, requestFor({ from: '2027-02-01', to: '2027-06-30' }))
    expect(programme.poles).toEqual([])
    expect(whyOf(programme, 'P-1')).toMatch(
      /Golden eagle nest .*\(record N-1\).*the agency decides/,
    )
  })

  it('parts a visit where poles share no free day', () => {
    const nests = [
      nestAt(eastOf(-300), { id: 'N-1', bufferM: 310, seasonFrom: '01-01', seasonTo: '06-30' }),
      nestAt(eastOf(400), { id: 'N-2', bufferM: 310, seasonFrom: '07-01', seasonTo: '12-31' }),
    ]
    const poles = [
      { id: 'P-1', eastM: 0 },
      { id: 'P-2', eastM: 100 },
    ]
    const programme = planProgramme(handMadeInput(poles, nests), requestFor())
    expect(programme.costUsd).toBe(2 * (500 + 350))
    expect(programme.rounds.map(({ earliest, latest }) => [earliest, latest])).toEqual([
      ['2027-01-01', '2027-06-30'],
      ['2027-07-01', '2027-12-31'],
    ])
  })

  it('chooses no more poles than the crews have days for, and the weightiest', () => {
    const input = handMadeInput(
      lonely([
        { id: 'P-1', rank: 0.2 },
        { id: 'P-2', rank: 0.4 },
        { id: 'P-3', rank: 0.3 },
      ]),
    )
    const oneDay = { from: '2027-08-02', to: '2027-08-02', polesPerCrewDay: 2 }
    const programme = planProgramme(input, requestFor(oneDay))
    expect(idsOf(programme)).toEqual(['P-2', 'P-3'])
    expect(whyOf(programme, 'P-1')).toContain('crews have no day left')
    expect(planProgramme(input, requestFor({ ...oneDay, crews: 2 })).poles).toHaveLength(3)
  })

  it('says so where nests leave too few days for all that the money would buy', () => {
    const poles = lonely([{ id: 'P-1', rank: 0.2 }, { id: 'P-2' }, { id: 'P-3' }])
    const nests = poles.map(({ id, eastM }) =>
      nestAt(eastOf(eastM), { id: `N-${id}`, seasonFrom: '01-02', seasonTo: '12-31' }),
    )
    const programme = planProgramme(handMadeInput(poles, nests), requestFor({ polesPerCrewDay: 2 }))
    expect(idsOf(programme)).toEqual(['P-2', 'P-3'])
    expect(whyOf(programme, 'P-1')).toBe(
      'No crew day is left for it on the days that nests leave free.',
    )
    expect(programme.gap).toBeCloseTo(0.2 / 1.2, 9)
  })

  it('shows benefit against budget without a fall, through the point of the request', () => {
    const poles = lonely(
      Array.from({ length: 12 }, (_, index) => ({
        id: `P-${index}`,
        costUsd: 300 + 70 * (index % 5),
        rank: 0.1 + 0.07 * (index % 7),
      })),
    )
    const programme = planProgramme(handMadeInput(poles), requestFor({ budgetUsd: 3333 }))
    const { curve, reduction } = programme
    expect(curve).toHaveLength(26)
    expect(curve[0]).toEqual({ budgetUsd: 0, reduction: 0, poles: 0 })
    expect(curve.at(-1)?.reduction).toBeCloseTo(programme.reductionPossible, 9)
    expect(curve.find(({ budgetUsd }) => budgetUsd === 3333)?.reduction).toBe(reduction)
    for (const [index, point] of curve.entries()) {
      expect(point.reduction).toBeGreaterThanOrEqual(curve[index - 1]?.reduction ?? 0)
    }
  })

  it('joins visits to rounds of a day and drives them in order', () => {
    const east = [0, 2000, 1000, 3000, 40_000]
    const poles = east.map((eastM, index) => ({ id: `P-${index}`, eastM }))
    const { rounds } = planProgramme(handMadeInput(poles), requestFor())
    const byDrive = rounds.map((round) => round.poles.join(' '))
    expect(byDrive).toHaveLength(2)
    expect(['P-0 P-2 P-1 P-3', 'P-3 P-1 P-2 P-0']).toContain(byDrive.find((ids) => ids !== 'P-4'))
    const long = rounds.find(({ poles: ids }) => ids.length === 4)
    expect(long?.driveM).toBeCloseTo(3000, -1)
    expect(long?.crewDays).toBe(1)
  })

  it('tells how far it is, and ends when the one who listens throws', () => {
    const input = handMadeInput(lonely([{ id: 'P-1' }]))
    const phases = new Set<string>()
    planProgramme(input, requestFor(), (_done, _total, phase) => phases.add(phase))
    expect([...phases]).toEqual(['poles and nests', 'choice of poles', 'benefit for other budgets'])
    expect(() =>
      planProgramme(input, requestFor(), () => {
        throw new Error('stopped by the person')
      }),
    ).toThrow('stopped by the person')
  })

  it('refuses days that end before they begin', () => {
    const days = { from: '2027-05-01', to: '2027-04-30' }
    expect(() => planProgramme(handMadeInput([]), requestFor(days))).toThrow(
      'The last day, 2027-04-30, comes before the first, 2027-05-01.',
    )
  })

  it('is of the form in which it is kept', () => {
    const programme = planProgramme(
      handMadeInput(lonely([{ id: 'P-1' }, { id: 'P-2', rank: 0.1 }])),
      requestFor({ budgetUsd: 900 }),
    )
    expect(Programme.parse(programme)).toEqual(programme)
  })
})
