import { describe, expect, it } from 'vitest'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { feederWithSampleBank, samplePlan } from './sample-plan.ts'

const tools = (kind: JobKind) =>
  samplePlan(kind, kind === 'set a bank' ? undefined : feederWithSampleBank()).kit.filter(
    (line) => line.for === 'tools',
  )
const countOf = (kind: JobKind, what: RegExp) =>
  tools(kind).find((line) => what.test(line.what))?.count ?? 0

/* Locks, tags, tester and cover-up that the steps call for: common practice, no source. */
describe('the tools of a job that switches a bank of three units', () => {
  it.each([
    'set a bank',
    'change out a bank',
    'remove a bank',
    'take a bank out of service',
  ] as const)(
    'to %s have a lock and tag for each source and load switch, and a tag for each way past',
    (kind) => {
      expect(countOf(kind, /^Lock and tag/)).toBe(6)
      expect(countOf(kind, /^Tag for what carries the line/)).toBe(3)
    },
  )

  it('have one more for each neutral-side switch', () => {
    const feeder = feederWithSampleBank()
    const equipment = feeder.equipment.map((item) =>
      item.kind === 'regulator' ? { ...item, neutralSide: 'switched' as const } : item,
    )
    const kit = samplePlan('remove a bank', { ...feeder, equipment }).kit
    expect(kit.find(({ what }) => /^Lock and tag/.test(what))).toMatchObject({
      count: 9,
      note: 'Source and load switch, and that of the neutral side, of each unit.',
    })
  })

  it('have rubber goods, cover-up and a tester that can be proven', () => {
    for (const kind of ['set a bank', 'change out a bank', 'remove a bank'] as const) {
      expect(countOf(kind, /^Rubber gloves and cover-up for 12.47 kV/)).toBe(1)
      expect(countOf(kind, /^Tester for 12.47 kV/)).toBe(1)
    }
  })

  it('lock nothing where only settings change', () => {
    expect(countOf('change settings', /^Lock/)).toBe(0)
  })
})
