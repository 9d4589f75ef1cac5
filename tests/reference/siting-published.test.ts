import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { readFeederFolder } from '../../server/layer-files/feeder-folder.ts'

/**
 * Least loss with one ideal ganged regulator, no bus above 1.05 pu, constant power, source 1.0 pu:
 * every branch and every position, computed apart from the project on the Baran and Wu feeders
 * (IEEE Trans. Power Delivery 4(2) and 4(1), 1989; data from memory, base case cross-checked).
 */
const LEAST_LOSS = [
  { id: 'bw33', span: ['2', '3'], tap: 10, lossKw: 178.0, lowestPu: 0.9811, baseKw: 202.68 },
  { id: 'bw69', span: ['6', '7'], tap: 11, lossKw: 197.1, lowestPu: 0.9834, baseKw: 224.98 },
] as const

async function published(id: string) {
  const folder = fileURLToPath(new URL(`../../geodata/published/${id}`, import.meta.url))
  const { feeder, findings } = await readFeederFolder(folder)
  if (!feeder) throw new Error(findings.map((finding) => finding.what).join(' '))
  return feeder
}

const request = SiteRequest.parse({
  goal: 'loss',
  taps: 'search',
  highVolts120: 126,
  lowVolts120: 0,
})

describe('Least loss on the published 33- and 69-bus feeders', () => {
  test.each(LEAST_LOSS)('$id: one bank on $span at +$tap leaves $lossKw kW', async (expected) => {
    const feeder = await published(expected.id)
    const outcome = siteFeeder(feeder, request)
    if (outcome.status !== 'done') throw new Error(outcome.status)
    const { before, candidates, proposals, tried } = outcome.result
    const [caseId] = Object.keys(before.cases)
    const [best] = proposals
    const bank = best?.banks[0]
    const span = feeder.spans.find(({ id }) => id === bank?.span)
    const after = best?.after.cases[caseId ?? '']
    expect(before.cases[caseId ?? '']?.lossKw).toBeCloseTo(expected.baseKw, 1)
    expect([span?.from, span?.to]).toEqual(expected.span)
    expect(bank?.taps[caseId ?? '']).toEqual({ A: expected.tap, B: expected.tap, C: expected.tap })
    expect(after?.lossKw).toBeCloseTo(expected.lossKw, 1)
    expect((after?.lowest.volts120 ?? 0) / 120).toBeCloseTo(expected.lowestPu, 3)
    expect((after?.highest.volts120 ?? 0) / 120).toBeLessThanOrEqual(1.05 + 1e-9)
    expect(tried).toBe(feeder.spans.filter((each) => !each.isNormallyOpen).length)
    expect(candidates).toHaveLength(tried)
  })
})
