import { describe, expect, it } from 'vitest'
import { graveFlaws, whyNoReport } from '../../support/audit-packages.mjs'

const advisory = {
  title: 'Lets a stranger in',
  url: 'https://advisories.example/1',
  severity: 'high',
}
const report = {
  auditReportVersion: 2,
  vulnerabilities: {
    leaky: { name: 'leaky', severity: 'high', via: [advisory] },
    above: { name: 'above', severity: 'high', via: ['leaky'] },
    slight: { name: 'slight', severity: 'low', via: [{ ...advisory, severity: 'low' }] },
  },
}
const allowance = {
  package: 'leaky',
  advisory: advisory.url,
  until: '2027-01-31',
  reason: 'The part with the flaw is never called.',
}

describe('the audit of packages', () => {
  it('fails for a grave flaw, once, and not for a slight one', () => {
    expect(graveFlaws(report, '2026-11-25')).toEqual([
      'leaky: Lets a stranger in (high, https://advisories.example/1)',
    ])
  })

  it('lets an allowed one pass until its day, and not after', () => {
    expect(graveFlaws(report, '2027-01-31', [allowance])).toEqual([])
    expect(graveFlaws(report, '2027-02-01', [allowance])).toHaveLength(1)
    const other = { ...allowance, advisory: 'https://advisories.example/2' }
    expect(graveFlaws(report, '2027-01-01', [other])).toHaveLength(1)
  })

  it('tells that there was no report, and why', () => {
    expect(whyNoReport(report)).toBeNull()
    expect(whyNoReport({ message: 'request failed' })).toBe('request failed')
    expect(whyNoReport(null)).toBe('no answer that could be read')
  })
})
