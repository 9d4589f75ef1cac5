import { describe, expect, it } from 'vitest'
import { AsLeft } from '#domain/jobs/as-left.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { fieldsOfAsLeft, formFields, formShape } from '../../../web/crew/as-left/as-left-fields.ts'
import { beginAsLeft } from '../../../web/crew/as-left/begin-as-left.ts'
import { checkAsLeft } from '../../../web/crew/as-left/check-as-left.ts'
import { nameplateOfRun } from '../../../web/crew/as-left/read-off-run.ts'
import { settingHint } from '../../../web/crew/as-left/setting-hint.ts'
import { beginStroke, leadStroke } from '../../../web/crew/as-left/signature-path.ts'
import { countUnit, phaseOfField, unitInWords } from '../../../web/crew/as-left/unit-count.ts'
import { compareFields, mergeFields } from '../../../web/record/merge-fields.ts'
import { shownValue } from '../../../web/record/record-fields.ts'
import { done, found, PLAN } from './made-job.ts'

const SHAPE = formShape(PLAN)
const NEUTRAL = {
  id: 'indicator',
  what: 'Position indicator',
  kind: 'number',
  unit: 'steps',
  isNeeded: true,
} as const
const COVER = 'measure.P1~bushing cover~R1-A-source~R1-A-load'
const ENTRIES = [
  found('entry-a', 'A', 4),
  found('entry-b', 'B', 5),
  done('entry-c', { stepId: 'left', values: { tap: 7 }, signedBy: ['Kim'] }),
]
const begun = () => beginAsLeft(PLAN, SHAPE, ENTRIES, '2026-11-20')
const filled = () => ({ ...begun(), signedBy: 'Robin', [`${COVER}.isDone`]: 'done' })

describe('what is left at the poles', () => {
  it('begins with the settings of the plan and what was read in the steps', () => {
    const fields = begun()
    expect(fields['settings.bandCentreV']).toBe('122')
    expect(fields['unit.A.tapFound']).toBe('4')
    expect(fields['unit.A.counterFound']).toBe('1204')
    expect(fields['unit.A.tapLeft']).toBe('7')
    expect(fields['unit.B.tapFound']).toBe('5')
    expect(fields['unit.B.tapLeft']).toBeUndefined()
    expect(fields.crew).toBe('Robin\nKim')
  })

  it('takes the nameplate of the new unit over, and not that of the old one', () => {
    const asks = [
      { id: 'new', what: 'Serial number', kind: 'text', isNeeded: true },
      { id: 'kva', what: 'Rating on the nameplate', kind: 'number', unit: 'kVA', isNeeded: true },
      { id: 'old', what: 'Serial number of the old unit', kind: 'text', isNeeded: true },
    ] as const
    const [pole] = PLAN.poles
    const [first] = pole?.sequence.steps ?? []
    if (!pole || !first) throw new Error('Expected a step.')
    const sequence = { ...pole.sequence, steps: [{ ...first, asks: [...asks] }] }
    const plan = { ...PLAN, poles: [{ ...pole, sequence }] }
    const values = { new: '4711', kva: 76.2, old: '0815' }
    const read = nameplateOfRun(plan, [done('entry-n', { stepId: 'found', values })], 'A')
    expect(read).toEqual({ serialNumber: '4711', ratingKva: 76.2 })
  })

  it('begins with neutral as the tap that was left where that was proven last', () => {
    const [pole] = PLAN.poles
    if (!pole) throw new Error('Expected a pole.')
    const steps = pole.sequence.steps.map((step) =>
      step.id === 'left'
        ? { ...step, asks: [{ ...NEUTRAL, judge: 'position indicator at neutral' } as const] }
        : step,
    )
    const plan = { ...PLAN, poles: [{ ...pole, sequence: { ...pole.sequence, steps } }] }
    const proven = done('entry-p', { stepId: 'left', values: { indicator: 0 } })
    const fields = beginAsLeft(plan, SHAPE, [...ENTRIES.slice(0, 2), proven], '2026-11-20')
    expect(fields['unit.A.tapFound']).toBe('4')
    expect(fields['unit.A.tapLeft']).toBe('0')
  })

  it('holds taps and counters, and no settings, where a bank is left bypassed', () => {
    const shape = formShape({ ...PLAN, kind: 'take a bank out of service' })
    expect(shape.hasSettings).toBe(false)
    const keys = shape.unitFields.map(({ key }) => key)
    expect(keys).toEqual(expect.arrayContaining(['tapFound', 'tapLeft', 'counterLeft']))
    expect(keys).not.toContain('ampsAfter')
    expect(formFields(shape).some(({ key }) => key.startsWith('settings.'))).toBe(false)
  })

  it('holds settings and taps where a bank is returned to service, and what was said beside them', () => {
    const plan = { ...PLAN, kind: 'return a bank to service' } as const
    const keys = formShape(plan).unitFields.map(({ key }) => key)
    expect(formShape(plan).hasSettings).toBe(true)
    expect(keys).toEqual(expect.arrayContaining(['tapLeft', 'ampsAfter']))
    expect(keys).not.toContain('nameplate')
    const said = checkAsLeft(SHAPE, { ...filled(), 'unit.A.nameplate': '76.2 kVA' }, []).asLeft
    expect(formShape(plan, said).unitFields.map(({ key }) => key)).toContain('nameplate')
  })

  it('is sent as it was typed, and reads the same when it comes back', () => {
    const checked = checkAsLeft(
      SHAPE,
      {
        ...filled(),
        'unit.A.serialNumber': '4711',
        'settings.rV': '−2.5',
      },
      [],
    )
    expect(checked.asLeft?.settings?.rV).toBe(-2.5)
    expect(checked.asLeft?.units[0]).toMatchObject({ phase: 'A', serialNumber: '4711', tapLeft: 7 })
    const asLeft = AsLeft.parse(checked.asLeft)
    expect(checkAsLeft(SHAPE, fieldsOfAsLeft(asLeft), []).asLeft).toEqual(asLeft)
  })

  it('says field by field what is wrong, and sends nothing until it is right', () => {
    const checked = checkAsLeft(
      SHAPE,
      {
        ...filled(),
        signedBy: ' ',
        'unit.A.tapLeft': '17',
        'unit.B.counterLeft': '12.5',
        'settings.delayS': '',
        'settings.bandwidthV': 'two',
        [`${COVER}.isDone`]: 'not done',
      },
      [],
    )
    if (checked.asLeft) throw new Error('Expected it to be refused.')
    expect(checked.faults).toMatchObject({
      signedBy: 'Somebody signs for it: type the name.',
      'unit.A.tapLeft': 'At most 16.',
      'unit.B.counterLeft': 'A whole number.',
      'settings.delayS': 'Read it off at the control and type it.',
      'settings.bandwidthV': '“two” is not a number.',
      [`${COVER}.why`]: 'Say why it was not done.',
    })
  })

  it('marks a setting that differs from the plan', () => {
    expect(settingHint('122.0', 122, 'V')).toBe('As planned.')
    expect(settingHint('123', 122, 'V')).toBe('≠ Planned: 122 V.')
  })

  it('holds every field that two people may have said differently, each by its name', () => {
    const asLeft = checkAsLeft(SHAPE, filled(), []).asLeft
    if (!asLeft) throw new Error('Expected it to be right.')
    const base = fieldsOfAsLeft(asLeft)
    const keys = formFields(SHAPE).map(({ key }) => key)
    expect(Object.keys(base).filter((key) => !keys.includes(key))).toEqual([])
    const mine = { ...base, remarks: 'mine', 'unit.A.serialNumber': '4711' }
    const theirs = { ...base, remarks: 'theirs', 'settings.delayS': '45' }
    const compared = compareFields(keys, base, mine, theirs)
    const merged = mergeFields(compared, { remarks: 'theirs' })
    expect(checkAsLeft(SHAPE, merged, []).asLeft).toMatchObject({
      remarks: 'theirs',
      settings: { delayS: 45 },
      units: [{ phase: 'A', serialNumber: '4711' }, { phase: 'B' }],
    })
  })

  it('takes bird work for done only with a word where its step was left out', () => {
    const leftOut: JobEntry = {
      ...{ kind: 'step left out', id: 'entry-x', at: '2026-11-20T15:00:00.000Z', pole: 'P1' },
      ...{ stepId: 'bird-work', why: 'Covers did not come', signedBy: ['Kim'] },
    }
    const checked = (change: Record<string, string> = {}) =>
      checkAsLeft(SHAPE, { ...filled(), ...change }, [leftOut])
    expect(checked()).toEqual({
      asLeft: null,
      faults: { [`${COVER}.why`]: 'Say how it was done, since its step was left out.' },
    })
    const word = { [`${COVER}.why`]: 'They came at noon.' }
    const [cover] = checked(word).asLeft?.measures ?? []
    expect(cover).toMatchObject({ isDone: true, why: 'They came at noon.' })
    const asLeft = AsLeft.parse(checked(word).asLeft)
    expect(checkAsLeft(SHAPE, fieldsOfAsLeft(asLeft), [leftOut]).asLeft).toEqual(asLeft)
    expect(checkAsLeft(SHAPE, { ...filled(), ...word }, []).asLeft?.measures[0]).not.toHaveProperty(
      'why',
    )
  })

  it('keeps a measure that was carried out beside the plan', () => {
    const beside = { pole: 'P1', measure: 'raised perch', partIds: [], isDone: true } as const
    const said = AsLeft.parse({ on: '2026-11-20', crew: [], units: [], measures: [beside] })
    expect(formShape(PLAN, said).measures.map(({ measure }) => measure)).toEqual([
      'bushing cover',
      'raised perch',
    ])
  })
})

describe('a signature', () => {
  it('is a path that the record takes, whatever way the finger goes', () => {
    const strokes = [
      beginStroke('', { x: 10, y: 20 }),
      (path: string) => leadStroke(path, { x: 30.123, y: 25 }),
      (path: string) => leadStroke(path, { x: 30.5, y: 25 }),
      (path: string) => leadStroke(path, { x: 999, y: -5 }),
    ] as const
    const [first, ...others] = strokes
    const path = others.reduce((drawn, lead) => lead(drawn), first)
    expect(path).toBe('M10.0 20.0L30.1 25.0L300.0 0.0')
    expect(AsLeft.shape.signaturePath.parse(path)).toBe(path)
  })

  it('that goes on and on stays as long as the record takes', () => {
    let path = beginStroke('', { x: 0, y: 0 })
    for (let at = 0; at < 5000; at++) path = leadStroke(path, { x: (at * 7) % 300, y: at % 100 })
    expect(AsLeft.shape.signaturePath.safeParse(path).success).toBe(true)
  })
})

describe('the units of the form', () => {
  it('are told with how much of each is filled in, and what is to mend', () => {
    const [phase] = SHAPE.phases
    if (!phase) throw new Error('Expected a unit.')
    const all = SHAPE.unitFields.length
    const empty = countUnit(SHAPE, phase, {}, {})
    expect(empty).toEqual({ filled: 0, all, hasFault: false })
    expect(unitInWords(phase, empty)).toBe(`A phase: 0 of ${all}`)
    const full = Object.fromEntries(SHAPE.unitFields.map(({ key }) => [`unit.A.${key}`, '1']))
    expect(unitInWords(phase, countUnit(SHAPE, phase, full, {}))).toBe('✓ A phase: complete')
    const faults = { 'unit.A.tapLeft': 'At most 16.' }
    expect(unitInWords(phase, countUnit(SHAPE, phase, full, faults))).toBe('✕ A phase: to mend')
    expect(phaseOfField(SHAPE, 'unit.B.tapLeft')).toBe('B')
    expect(phaseOfField(SHAPE, 'signedBy')).toBeNull()
  })

  it('are said back with units', () => {
    const inWords = (key: string, value: string) => {
      const field = formFields(SHAPE).find((each) => each.key === key)
      return field && shownValue(field, value)
    }
    expect(inWords('unit.A.loadVAfter', '124.4')).toBe('124.4 V on 120')
    expect(inWords('unit.A.ratingKva', '288')).toBe('288 kVA')
    expect(inWords('unit.B.tapLeft', '-3')).toBe('−3 steps')
    expect(inWords('settings.delayS', '30')).toBe('30 s')
    expect(inWords('settings.maxRaise', '16')).toBe('16 steps')
    expect(inWords('unit.A.ampsAfter', '')).toBe('')
  })
})
