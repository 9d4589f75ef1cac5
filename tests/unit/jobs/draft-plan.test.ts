import { describe, expect, it } from 'vitest'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { draftPlan, type PlanInput } from '#domain/jobs/draft-plan.ts'
import { expectedInCases } from '#domain/jobs/expected-readings.ts'
import { JOB_KINDS } from '#domain/jobs/job-kind.ts'
import { type Hazard, JobPlan, type KitLine } from '#domain/jobs/job-plan.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'
import { SAMPLE_BANK } from './sample-bank.ts'

const sequences = SHIPPED_SEQUENCES.map((sequence) => ({ sequence, version: 0 }))
const thimble = await readDemoFeeder('thimble')
const skillet = await readDemoFeeder('skillet')

function bankAt(feeder: Feeder, pole: string, change: Partial<Regulator> = {}): Regulator {
  const span = feeder.spans.find(({ from, phases }) => from === pole && phases === 'ABC')
  if (!span) throw new Error(`No three-phase span leaves ${pole}.`)
  return { ...SAMPLE_BANK, id: `REG-${pole}`, pole, span: span.id, ...change }
}

function standingBank(): Regulator {
  const found = skillet.equipment.find(({ id }) => id === 'regulator-S-144')
  if (found?.kind !== 'regulator') throw new Error('The demo has no bank.')
  return found
}

function plan(given: Partial<PlanInput> & Pick<PlanInput, 'kind'>): JobPlan {
  const drafted = draftPlan({
    feeder: thimble,
    poles: [],
    sequences,
    poleTops: [],
    on: '2027-09-20',
    ...given,
  })
  return JobPlan.parse(drafted)
}

const BARE = [{ pole: 'T-110', measures: [] }]
const CHEAPEST = [{ pole: 'T-110', measures: 'cheapest' as const }]

function newBank(given: Partial<PlanInput> = {}, change: Partial<Regulator> = {}): JobPlan {
  const regulator = bankAt(thimble, 'T-110', change)
  return plan({ kind: 'set a bank', poles: BARE, bank: { regulator, loopOhm: 0.1 }, ...given })
}

function onStanding(kind: PlanInput['kind'], given: Partial<PlanInput> = {}): JobPlan {
  const standing = standingBank()
  const bank = { regulator: standing, standing, loopOhm: 0.1 }
  const poles = [{ pole: 'S-144', measures: [] }]
  return plan({ feeder: skillet, kind, bank, poles, ...given })
}

function onBypassed(kind: PlanInput['kind'], given: Partial<PlanInput> = {}): JobPlan {
  const regulator = standingBank()
  const standing = { ...regulator, state: 'bypassed' as const }
  const equipment = skillet.equipment.map((item) => (item.id === standing.id ? standing : item))
  const bank = { regulator, standing, loopOhm: 0.1 }
  return onStanding(kind, { feeder: { ...skillet, equipment }, bank, ...given })
}

const countOf = (kit: readonly KitLine[], what: RegExp) =>
  kit.filter((line) => what.test(line.what)).map(({ count }) => count)
const wordsOf = (hazards: readonly Hazard[], about: Hazard['about']) =>
  hazards.filter((hazard) => hazard.about === about).map(({ what }) => what)

describe('a plan', () => {
  const plans = {
    'set a bank': newBank(),
    'change out a bank': onStanding('change out a bank'),
    'remove a bank': onStanding('remove a bank'),
    'take a bank out of service': onStanding('take a bank out of service'),
    'return a bank to service': onBypassed('return a bank to service'),
    'change settings': onStanding('change settings'),
    'retrofit round': plan({
      kind: 'retrofit round',
      poles: [{ pole: 'T-20', measures: 'cheapest' }],
    }),
    inspection: plan({ kind: 'inspection', poles: [{ pole: 'T-20', measures: 'cheapest' }] }),
  }

  it.each(JOB_KINDS)('can be drafted to %s, with steps for every pole', (kind) => {
    const drafted = plans[kind]
    expect(drafted.kind).toBe(kind)
    for (const { sequence } of drafted.poles) expect(sequence.forKinds).toContain(kind)
    for (const { source } of drafted.hazards) expect(source).not.toBe('')
  })

  it('says what could go wrong only where something is connected or set', () => {
    expect(plans['set a bank'].mistakes).toHaveLength(6)
    expect(plans['change out a bank'].mistakes).toHaveLength(6)
    expect(plans['change settings'].mistakes.map(({ mistake }) => mistake)).toEqual([
      'wrong potential ratio',
    ])
    expect(plans['return a bank to service'].mistakes).toHaveLength(1)
    for (const kind of ['remove a bank', 'take a bank out of service', 'inspection'] as const) {
      expect(plans[kind].mistakes).toEqual([])
    }
  })

  it('has readings for each case wherever there is a bank', () => {
    const bank = plans['remove a bank'].bank!
    expect(plans['remove a bank'].expected).toEqual(expectedInCases(skillet, bank).cases)
    expect(plans['retrofit round'].expected).toEqual([])
  })

  it('stays within its form where names in the record are very long', () => {
    const long = 'very long name '.repeat(60)
    const equipment = skillet.equipment.map((item) =>
      item.kind === 'solar' ? { ...item, name: long } : item,
    )
    const protections: Feeder['protections'] = [
      { id: 'P', pole: 'S-144', kind: 'cover', what: long, state: 'on', on: '2026-01-01' },
    ]
    const feeder = { ...skillet, equipment, protections }
    const poles = [{ pole: 'S-144', measures: [] }]
    const words = wordsOf(onStanding('remove a bank', { feeder }).hazards, 'backfeed')
    expect(words[0]).toMatch(/…$/)
    const { kit } = plan({ kind: 'inspection', feeder, poles })
    expect(kit[0]!.what).toMatch(/^Look at: very long name .*…$/)
  })

  it('has no settings for a bank that goes or is switched off, and those of one that returns', () => {
    expect(plans['remove a bank'].settings).toEqual([])
    expect(plans['take a bank out of service'].settings).toEqual([])
    expect(plans['return a bank to service'].settings.length).toBeGreaterThan(5)
    expect(plans.inspection.settings).toEqual([])
  })

  it('is refused without a bank where there must be one', () => {
    expect(() => plan({ kind: 'set a bank' })).toThrow('Expected a bank to "set a bank", got none.')
  })

  it('is refused for a pole that the feeder does not have', () => {
    const poles = [{ pole: 'T-9999', measures: [] }]
    expect(() => plan({ kind: 'inspection', poles })).toThrow('has no pole "T-9999"')
  })

  it('is refused where no order of steps is given for its kind', () => {
    const poles = [{ pole: 'T-20', measures: [] }]
    expect(() => plan({ kind: 'inspection', poles, sequences: [] })).toThrow('No order of steps')
  })

  it('says which case could not be solved, and gives no figures for it', () => {
    const cases = thimble.header.cases.map((each) =>
      each.id === 'peak' ? { ...each, loadFactor: 40 } : each,
    )
    const heavy = { ...thimble, header: { ...thimble.header, cases } }
    const drafted = newBank({ feeder: heavy })
    expect(drafted.expected.map(({ caseId }) => caseId)).toEqual(['light', 'solar-noon'])
    expect(drafted.notes.join()).toMatch(/does not converge in Summer evening peak/)
  })

  it('has no readings for a phase that does not reach the bank, and says so', () => {
    const { span } = bankAt(thimble, 'T-110')
    const spans = thimble.spans.map((each) =>
      each.id === span ? { ...each, phases: 'AB' as const } : each,
    )
    const regulator = bankAt(thimble, 'T-110')
    const bank = { regulator, loopOhm: 0.1 }
    const drafted = newBank({ feeder: { ...thimble, spans }, bank })
    for (const { readings } of drafted.expected) {
      expect(readings.map(({ phase }) => phase)).toEqual(['A', 'B'])
    }
    expect(drafted.notes.join()).toMatch(/No power reaches the bank on phase C/)
    expect(drafted.mistakes.some(({ phase }) => phase === 'C')).toBe(false)
  })

  it('says where a unit comes to the end of its range', () => {
    expect(newBank({}, { bandCentreV: 139 }).notes.join(' ')).toMatch(/at the end of its range/)
  })
})

describe('customers beyond a bank that is taken out', () => {
  const notesOf = (kind: PlanInput['kind']) => onStanding(kind).notes.join(' ')

  it('are counted over the whole feeder, with the lowest pole beyond', () => {
    const { whileBypassed } = onStanding('remove a bank')
    const peak = whileBypassed?.find(({ caseId }) => caseId === 'peak')
    const { lowest } = peak!
    const said = `Without the bank ${peak!.customersOutside} customers are outside the limits in Summer evening peak, against ${peak!.customersOutsideInService} with it in service; lowest beyond it is phase ${lowest!.phase} at pole ${lowest!.pole} with ${lowest!.volts120.toFixed(1)} V.`
    expect(notesOf('remove a bank')).toContain(said)
    expect(lowest!.volts120).toBeLessThan(118)
    expect(notesOf('remove a bank')).not.toMatch(/Without the bank .* in Spring night/)
  })

  it('get them while the units are changed or off the line, and not where settings change', () => {
    for (const kind of ['change out a bank', 'take a bank out of service'] as const) {
      expect(notesOf(kind)).toMatch(/While the bank is bypassed \d+ customers/)
    }
    expect(notesOf('change settings')).not.toMatch(/bypassed/)
  })
})

describe('the kit for a new bank', () => {
  it('has one of what a unit has once and two of what it has on both sides', () => {
    const { kit } = newBank()
    expect(countOf(kit, /^Regulator unit, 167 kVA, 219 A, type B/)).toEqual([3])
    expect(countOf(kit, /^Control cabinet/)).toEqual([3])
    expect(countOf(kit, /^Bypass switch/)).toEqual([3])
    expect(countOf(kit, /^Disconnect switch/)).toEqual([6])
    expect(countOf(kit, /^Arrester/)).toEqual([6])
  })

  it('is a third of it for a bank on one phase', () => {
    const { kit } = newBank({}, { phases: 'A' })
    expect(countOf(kit, /^(Regulator unit|Bypass switch)/)).toEqual([1, 1])
    expect(countOf(kit, /^(Disconnect switch|Arrester)/)).toEqual([2, 2])
  })

  /** Four-wire multigrounded 12.47 kV: 9 kV duty cycle, 7.65 kV continuous (IEEE C62.22, from memory). */
  it('names arresters by the voltage of the line, and how sure that is', () => {
    const line = newBank().kit.find(({ what }) => what.startsWith('Arrester'))
    expect(line).toMatchObject({ what: 'Arrester, 9 kV (7.65 kV continuous)' })
    expect(line?.note).toMatch(/from memory/)
  })

  it('says what it cannot know and invents nothing', () => {
    const { kit } = newBank({}, { ratingA: undefined, ratingKva: undefined })
    const unit = kit.find(({ what }) => what.startsWith('Regulator unit'))
    expect(unit).toMatchObject({ what: expect.stringContaining('rating not recorded') })
    expect(unit?.note).toMatch(/Weight not known here/)
  })

  /** One step at 7200 V is 45 V and at 14 400 V 90 V (5/8 %, IEEE C57.15, from memory). */
  it('asks for a voltmeter that can show one step', () => {
    const noteOf = ({ kit }: JobPlan) => kit.find(({ what }) => what.startsWith('Voltmeter'))?.note
    expect(noteOf(newBank())).toMatch(/One step is 45\.0 V/)
    expect(noteOf(onStanding('change settings'))).toMatch(/One step is 90\.0 V/)
  })

  it('has every part that the birds’ measures cover', () => {
    const { kit, poles } = newBank({ poles: CHEAPEST })
    const [{ measures } = { measures: [] }] = poles
    expect(measures.length).toBeGreaterThan(0)
    for (const { kind, partIds } of measures) {
      const line = kit.find((each) => each.for === 'birds' && each.what === kind)
      expect(line?.count).toBe(partIds.length)
    }
  })

  it('takes a jumper for the greater of rating and expected current to a change-out', () => {
    expect(
      countOf(onStanding('change out a bank').kit, /jumper rated for 24\.94 kV and at least 200 A/),
    ).toEqual([3])
    expect(countOf(newBank().kit, /[Jj]umper rated/)).toEqual([])
  })
})

describe('open pairs on the pole of a bank', () => {
  it('are counted with the bank on it, and fewer with the measures', () => {
    const [bare] = newBank().poles
    const [covered] = newBank({ poles: [] }).poles
    const [without] = plan({
      kind: 'retrofit round',
      poles: [{ pole: 'T-110', measures: [] }],
    }).poles
    expect(bare!.openPairs).toBeGreaterThan(without!.openPairs)
    expect(bare!.openPairsAfter).toBe(bare!.openPairs)
    expect(covered!.openPairs).toBe(bare!.openPairs)
    expect(covered!.openPairsAfter).toBeLessThan(covered!.openPairs)
  })

  it('of a bank that goes are those of the bare pole afterwards', () => {
    const poles = [{ pole: 'S-144', measures: [] }]
    const [gone] = onStanding('remove a bank', { poles }).poles
    expect(gone!.openPairsAfter).toBeLessThan(gone!.openPairs)
  })

  it('come again with new units, whose old covers came down with the old ones', () => {
    const poles = [{ pole: 'S-144', measures: 'cheapest' as const }]
    const fresh = onStanding('change out a bank', { poles }).poles[0]!
    const protections = [
      ...skillet.protections,
      ...fresh.measures.map((measure, index) => ({
        id: `cover-${index}`,
        pole: 'S-144',
        kind: 'cover' as const,
        what: measure.kind,
        state: 'on' as const,
        on: '2026-05-01',
        measure: measure.kind,
        partIds: measure.partIds,
      })),
    ]
    const feeder = { ...skillet, protections }
    const again = onStanding('change out a bank', { feeder, poles }).poles[0]!
    expect(again.openPairs).toBe(fresh.openPairsAfter)
    const bushings = (work: typeof fresh) =>
      work.measures.find(({ kind }) => kind === 'bushing cover')?.partIds.toSorted()
    expect(bushings(again)).toEqual(bushings(fresh))
    expect(again.openPairsAfter).toBe(fresh.openPairsAfter)
  })

  it('are left as they are where only settings change: nobody goes up', () => {
    const [work] = onStanding('change settings', { poles: [] }).poles
    expect(work!.measures).toEqual([])
    expect(work!.openPairsAfter).toBe(work!.openPairs)
  })

  it('are not known where the pole is only a point of a scheme', () => {
    const poles = thimble.poles.map((pole) =>
      pole.id === 'T-20' ? { ...pole, isAnonymousNode: true } : pole,
    )
    const drafted = plan({
      kind: 'retrofit round',
      feeder: { ...thimble, poles },
      poles: [{ pole: 'T-20', measures: 'cheapest' }],
    })
    expect(drafted.notes.join()).toMatch(/top of pole T-20 could be drawn/)
  })
})

describe('the hazards of a job', () => {
  /** 29 CFR 1910.269 (2014), Table R-6: 5.1 to 15.0 kV and 15.1 to 36.0 kV. */
  it('give the minimum approach distance by the voltage of the line', () => {
    expect(wordsOf(newBank().hazards, 'approach')[0]).toMatch(
      /2\.14 ft \(0\.65 m\) phase to ground, 2\.24 ft \(0\.68 m\) phase to phase/,
    )
    expect(wordsOf(onStanding('remove a bank').hazards, 'approach')[0]).toMatch(
      /2\.53 ft \(0\.77 m\) phase to ground, 2\.92 ft \(0\.89 m\) phase to phase/,
    )
  })

  /** Table R-6 reads single-phase systems by volts to ground: 14.4 kV lies in 5.1 to 15.0 kV. */
  it('read a single-phase tap by its volts to ground, with what the row of its line would ask', () => {
    const span = skillet.spans.find(
      ({ from, phases, to }) =>
        phases.length === 1 &&
        skillet.spans.every(
          (other) => other.phases.length === 1 || (other.from !== to && other.to !== to),
        ) &&
        from.startsWith('S'),
    )!
    const poles = [{ pole: span.to, measures: [] }]
    const { hazards } = plan({ kind: 'inspection', feeder: skillet, poles })
    expect(wordsOf(hazards, 'approach')[0]).toMatch(
      /at a single-phase tap of 14\.40 kV to ground: 2\.14 ft \(0\.65 m\) phase to ground\. Where your rules go by the 24\.94 kV .* 2\.53 ft \(0\.77 m\)\./,
    )
  })

  it('put the larger distance on a high pole', () => {
    const regulator = bankAt(thimble, 'T-110')
    const high = newBank({ bank: { regulator, loopOhm: 0.1, elevationM: 1900 } })
    // Table R-5: 1.11 up to 2100 m, from memory; 0.65 m times 1.11 is 0.73 m.
    expect(wordsOf(high.hazards, 'approach')[0]).toMatch(/\(0\.73 m\) phase to ground/)
  })

  /** One step at 7620 V is 47.6 V and drives 476 A through 0.1 ohm: computed by hand. */
  it('say what a bypass closed off neutral would do', () => {
    const feeder = { ...thimble, header: { ...thimble.header, nominalKv: 13.2 } }
    const [bypass] = wordsOf(newBank({ feeder }).hazards, 'bypass')
    expect(bypass).toMatch(/47\.6 V across it and about 480 A through a loop of 0\.1 ohm/)
    expect(wordsOf(onStanding('change settings').hazards, 'bypass')).toEqual([])
  })

  it('name generation and capacitors beyond the bank, and not those before it', () => {
    const beyond = wordsOf(onStanding('change out a bank').hazards, 'backfeed').join(' ')
    expect(beyond).toMatch(/Collector Lane solar plant, 900 kW/)
    expect(beyond).toMatch(/Hob Corner capacitors/)
    const end = skillet.spans.findLast(({ from, phases }) => phases === 'ABC' && /^S-/.test(from))!
    const regulator = { ...standingBank(), id: 'REG-end', pole: end.from, span: end.id }
    const last = plan({
      kind: 'set a bank',
      feeder: skillet,
      bank: { regulator, loopOhm: 0.1 },
    })
    expect(wordsOf(last.hazards, 'backfeed').join(' ')).not.toMatch(/Collector Lane/)
  })

  it('name ties that could be closed from beyond', () => {
    const [pole] = thimble.poles.slice(-1)
    const tie = {
      id: 'TIE',
      from: 'T-111',
      to: 'T-1',
      phases: 'ABC' as const,
      isNormallyOpen: true,
    }
    const spans = [...thimble.spans, { ...tie, path: [pole!.at, pole!.at] }]
    const words = wordsOf(newBank({ feeder: { ...thimble, spans } }).hazards, 'backfeed').join()
    expect(words).toMatch(/span TIE from T-111 to T-1/)
  })

  it('hold the nests near the pole against the days that are known of the job', () => {
    const at = thimble.poles.find(({ id }) => id === 'T-110')!.at
    const nests: Feeder['nests'] = [
      {
        id: 'N-1',
        at,
        species: 'Red-tailed hawk',
        status: 'in use',
        bufferM: 531,
        seasonFrom: '02-15',
        seasonTo: '07-15',
      },
    ]
    const on = (day: string, dueOn?: string) => {
      const days = { on: day, ...(dueOn && { dueOn }) }
      return wordsOf(newBank({ feeder: { ...thimble, nests }, ...days }).hazards, 'nest').join(' ')
    }
    expect(on('2027-09-20', '2028-03-01')).toMatch(
      /Red-tailed hawk nest .* \(record N-1\).*season 15 Feb to 15 Jul, no work in it\..*Drafted on 20 Sep 2027, outside it; due on 1 Mar 2028, in that season\./,
    )
    expect(on('2027-07-15')).toMatch(/Drafted on 15 Jul 2027, in that season; no due day is given/)
    expect(wordsOf(newBank({ feeder: { ...thimble, nests: [] } }).hazards, 'nest')).toEqual([])
  })

  it('say which pole lies farthest from a road, and which gates are near', () => {
    const poles = ['T-20', 'T-110'].map((pole) => ({ pole, measures: [] }))
    const words = wordsOf(plan({ kind: 'retrofit round', poles }).hazards, 'access')
    expect(words[0]).toMatch(/^Farthest of the poles from a road or track: \d+ ft/)
    expect(words.join(' ')).toMatch(/Gate “Shuttle Lane gate”: .* chained, utility lock/)
    const bare = plan({ kind: 'retrofit round', poles, feeder: { ...thimble, access: [] } })
    expect(wordsOf(bare.hazards, 'access')[0]).toMatch(/No road or track is recorded/)
  })

  it('hold the weight of the units against the pole', () => {
    const weight = (feeder: Feeder) => wordsOf(newBank({ feeder }).hazards, 'weight')[0]
    const withClass = (poleClass: string | undefined): Feeder => ({
      ...thimble,
      poles: thimble.poles.map((pole) => (pole.id === 'T-110' ? { ...pole, poleClass } : pole)),
    })
    expect(weight(withClass('3'))).toMatch(/1200 to 1600 lb .* class 3/)
    expect(weight(withClass('6'))).toMatch(/class 6; a bank needs class 4 or stronger/)
    expect(weight(withClass(undefined))).toMatch(/class of the pole is not recorded/)
  })

  it('say that covers protect no worker, where covers are', () => {
    const said = (poles: PlanInput['poles']) => wordsOf(newBank({ poles }).hazards, 'other').join()
    expect(said(CHEAPEST)).toMatch(/no insulation for people/)
    expect(said(BARE)).toBe('')
  })
})

describe('an inspection', () => {
  const protections: Feeder['protections'] = [
    { id: 'P1', what: 'arrester cap, A phase', on: '2026-08-01' },
    { id: 'P2', what: 'cutout cover, A phase', on: '2024-03-01' },
    { id: 'P3', what: 'raised perch', on: '2020-01-01', state: 'removed' as const },
  ].map((item) => ({ pole: 'T-20', kind: 'cover', state: 'on', ...item }))
  const given = {
    kind: 'inspection' as const,
    feeder: { ...thimble, protections },
    poles: [{ pole: 'T-20', measures: 'cheapest' as const }],
  }

  it('lists what hangs on its poles, what is due longest first', () => {
    const birdSettings = BirdSettings.parse({ inspectEveryMonths: 24 })
    const lines = plan({ ...given, birdSettings }).kit.filter((line) => line.for === 'birds')
    expect(lines.map(({ note, what }) => [what, note])).toEqual([
      ['Look at: cutout cover, A phase', 'Due since 1 Mar 2026.'],
      ['Look at: arrester cap, A phase', 'Due by 1 Aug 2028.'],
    ])
  })

  it('says where no interval is set, and puts nothing up', () => {
    const drafted = plan(given)
    const notes = drafted.kit.flatMap((line) => (line.for === 'birds' ? [line.note] : []))
    expect(notes).toEqual(['No interval is set for it.', 'No interval is set for it.'])
    expect(drafted.poles[0]!.measures).toEqual([])
  })
})

describe('the settings sheet', () => {
  it('says what is there now where it changes', () => {
    const standing = standingBank()
    const regulator = { ...standing, bandCentreV: 122, maxRaise: 8, maxLower: 8 }
    const { settings } = plan({
      kind: 'change settings',
      feeder: skillet,
      bank: { regulator, standing, loopOhm: 0.1 },
    })
    const line = (name: string) => settings.find((each) => each.name === name)
    expect(line('Band centre')).toMatchObject({ value: '122.0 V' })
    expect(line('Band centre')?.note).toMatch(/^Now 124\.0 V\./)
    expect(line('Bandwidth')?.value).toBe('2.0 V (121.0 to 123.0 V)')
    expect(line('Time delay')?.note).not.toMatch(/Now/)
    // Held to ±5 %, a 200 A unit carries 160 % of its rating (IEEE C57.15, from memory).
    expect(line('Limits of the range')?.value).toMatch(/8 raise \(5 %\), 8 lower \(5 %\).*320 A/)
  })

  it('leaves the reverse-power mode to the utility', () => {
    const { settings } = newBank()
    expect(settings.at(-1)).toMatchObject({ value: 'as the utility says' })
  })
})
