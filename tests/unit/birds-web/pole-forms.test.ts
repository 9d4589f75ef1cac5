import { describe, expect, it } from 'vitest'
import type { PoleTopRecord } from '#contract/pole-tops.ts'
import type { ProtectionRecord } from '#contract/protections.ts'
import { measureCatalogue } from '#domain/avian/measures/measure-catalogue.ts'
import { inspectedItem } from '../../../web/coordinator/pole/inspect-draft.ts'
import { bodyOfDraft, draftOfItem, newDraft } from '../../../web/coordinator/pole/item-draft.ts'
import { addressOfItemView, itemViewOf } from '../../../web/coordinator/pole/item-view.ts'
import { itemsOfMeasures } from '../../../web/coordinator/pole/items-of-measures.ts'
import {
  bodyOfPoleTop,
  draftOfChosen,
  draftOfPoleTop,
  fieldsOfDraft,
  fieldsOfPoleTop,
  lengthOfTyped,
} from '../../../web/coordinator/pole/pole-top-draft.ts'
import { drawnPart } from './drawing-parts.ts'

const KEPT = {
  version: 3,
  changedBy: { id: 'demo-coordinator', role: 'coordinator' },
  changedAt: '2026-11-20T10:00:00.000Z',
  deletedAt: null,
} as const

const ITEM: ProtectionRecord = {
  ...KEPT,
  id: 'item-1',
  pole: 'S-1',
  kind: 'cover',
  what: 'bushing cover, A phase',
  state: 'on',
  on: '2025-04-01',
  note: 'as new',
  measure: 'bushing cover',
  partIds: ['t1-bushing', 't2-bushing'],
  costUsd: 350,
  inspectEveryMonths: 12,
}

describe('the form of an item', () => {
  it('gives back what it was opened with, and leaves out what is empty', () => {
    const { id: _, version: __, changedBy, changedAt, deletedAt, ...entered } = ITEM
    expect([changedBy.role, changedAt, deletedAt]).toHaveLength(3)
    expect(bodyOfDraft(draftOfItem(ITEM), 'S-1')).toEqual({ body: entered })
  })

  it('says beside each field what is wrong with it', () => {
    const draft = { ...newDraft('2026-11-25'), costUsd: 'much', inspectEveryMonths: '1.5' }
    const checked = bodyOfDraft(draft, 'S-1')
    expect('faults' in checked && Object.keys(checked.faults).sort()).toEqual([
      'costUsd',
      'inspectEveryMonths',
      'what',
    ])
  })
})

describe('an inspection', () => {
  it('that found the cover slipped fails it from that day', () => {
    const draft = {
      condition: 'slipped',
      inspectedOn: '2026-11-24',
      note: 'below the bushing',
    } as const
    expect(inspectedItem(ITEM, draft)).toMatchObject({
      state: 'failed',
      on: '2026-11-24',
      condition: 'slipped',
      inspectedOn: '2026-11-24',
      note: 'below the bushing',
      partIds: ITEM.partIds,
    })
  })

  it('that found it sound leaves its state and the date of it', () => {
    const draft = { condition: 'sound', inspectedOn: '2026-11-24', note: '' } as const
    const body = inspectedItem(ITEM, draft)
    expect(body).toMatchObject({ state: 'on', on: '2025-04-01', condition: 'sound' })
    expect(body.note).toBeUndefined()
  })
})

describe('measures that become items', () => {
  it('carry their kind, their parts, and the first figure of their cost', () => {
    const parts = [drawnPart('t1-bushing', [0, 0, -1], { label: 'A-phase transformer bushing' })]
    const catalogue = measureCatalogue()
    const [cover, arm] = itemsOfMeasures(
      [
        { kind: 'bushing cover', partIds: ['t1-bushing'] },
        { kind: 'longer arm', partIds: ['arm'], dimensionM: 56 * 0.0254 },
      ],
      { pole: 'S-1', parts, catalogue, state: 'planned', on: '2026-11-25' },
    )
    expect(cover).toMatchObject({
      kind: 'cover',
      what: 'bushing cover on A-phase transformer bushing',
      measure: 'bushing cover',
      partIds: ['t1-bushing'],
      costUsd: catalogue.find(({ kind }) => kind === 'bushing cover')?.costUsd,
    })
    expect(arm).toMatchObject({ kind: 'change of the framing', what: 'longer arm, 56 in' })
    expect(arm?.dimensionM).toBeCloseTo(56 * 0.0254, 9)
  })
})

const TOP: PoleTopRecord = {
  ...KEPT,
  id: 'S-1',
  pole: 'S-1',
  framing: 'flat arm',
  measured: { outerPhaseM: 1.1176 },
  withoutParts: ['neutral'],
  addedParts: [
    {
      id: 'added-1',
      label: 'bypass jumper',
      kind: 'jumper',
      potential: 'B',
      fromM: [0, 0, -1],
      toM: [0.2, 0, -1],
      radiusM: 0,
      canPerch: false,
    },
  ],
  note: '',
}

describe('the form of a pole top', () => {
  it('shows 1.1176 m as 44 in, and sends it back as it was', () => {
    const draft = draftOfPoleTop(TOP, 'us')
    expect(draft.measured.outerPhaseM).toBe('44')
    const checked = bodyOfPoleTop(draft)
    if ('faults' in checked) throw new Error(JSON.stringify(checked.faults))
    expect(checked.body.measured.outerPhaseM).toBeCloseTo(1.1176, 9)
    expect(checked.body).toMatchObject({
      framing: 'flat arm',
      withoutParts: ['neutral'],
      addedParts: TOP.addedParts,
      version: 3,
    })
  })

  it('takes centimetres with a comma, and refuses what is no figure', () => {
    expect(lengthOfTyped('111,76', 'metric')).toBeCloseTo(1.1176, 9)
    expect(lengthOfTyped('', 'us')).toBeUndefined()
    const draft = draftOfPoleTop(null, 'us')
    const checked = bodyOfPoleTop({ ...draft, measured: { bushingM: 'eleven', topPinM: '-3' } })
    expect('faults' in checked && Object.keys(checked.faults)).toEqual(['topPinM', 'bushingM'])
  })

  it('can be compared with what someone else saved, field by field, and taken over whole', () => {
    expect(fieldsOfDraft(draftOfPoleTop(TOP, 'us'))).toEqual(fieldsOfPoleTop(TOP))
    const theirs = { ...TOP, version: 4, note: 'seen from the ground' }
    const merged = draftOfChosen(fieldsOfPoleTop(theirs), theirs, 'metric')
    expect(merged.version).toBe(4)
    expect(merged.measured.outerPhaseM).toBe('111.8')
    expect(merged.addedParts).toEqual(TOP.addedParts)
  })
})

describe('what stands open in the pole panel', () => {
  it('comes back from the address', () => {
    for (const view of [
      { open: 'measure', pole: 'S-1' },
      { open: 'inspect', item: 'item-1' },
    ] as const) {
      expect(itemViewOf(addressOfItemView(view))).toEqual(view)
    }
    expect(itemViewOf('year')).toBeNull()
  })
})
