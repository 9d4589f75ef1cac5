import {
  arresters,
  cutouts,
  freeTrunkSpanAt,
  lateralProtection,
  lineSwitch,
  recloser,
  trunkSpanAt,
} from './devices.ts'
import type { EquipmentDraft, RegulatorDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import type { LaidSpan } from './lay-line.ts'

/** What the utility has set on the long feeder so far, one figure for each thing that can be tuned. */
export function skilletDevices(feeder: LaidFeeder, taken: ReadonlySet<string>): EquipmentDraft[] {
  const bank = freeTrunkSpanAt(feeder, 13.2, taken)
  const capacitor = freeTrunkSpanAt(feeder, 24.2, taken)
  const halfway = freeTrunkSpanAt(feeder, 22, taken)
  const upper = freeTrunkSpanAt(feeder, 31, taken)
  const solarEnd = feeder.branches.find(({ plan }) => plan.series === '11')?.poles.at(-1)
  return [
    recloser(trunkSpanAt(feeder, 0), 560, 2009),
    arresters(trunkSpanAt(feeder, 0).from, 'ABC', feeder.source.id),
    lineSwitch(freeTrunkSpanAt(feeder, 6.5, taken), 'closed', 'Cinderpot switch'),
    ...existingBank(bank),
    recloser(freeTrunkSpanAt(feeder, 16.4, taken), 280, 2016),
    lineSwitch(halfway, 'closed', 'Farrow Gate switch'),
    {
      id: `capacitor-${capacitor.from.id}`,
      pole: capacitor.from.id,
      kind: 'capacitor',
      name: 'Hob Corner capacitors',
      phases: 'ABC',
      kvarA: 100,
      kvarB: 100,
      kvarC: 100,
      installedYear: 2004,
    },
    cutouts(capacitor.from, 'ABC', capacitor.from.id),
    arresters(capacitor.from, 'ABC', capacitor.from.id),
    lineSwitch(upper, 'closed', 'Upper basin switch'),
    ...(solarEnd
      ? ([
          {
            id: `solar-${solarEnd.id}`,
            pole: solarEnd.id,
            kind: 'solar',
            name: 'Collector Lane solar plant',
            phases: 'ABC',
            ratedKw: 900,
            powerFactor: 1,
            installedYear: 2021,
          },
          arresters(solarEnd, 'ABC', solarEnd.id),
        ] satisfies EquipmentDraft[])
      : []),
    ...lateralProtection(feeder, new Set(['6', '8', '9', '11', '14'])),
    ...tie(feeder),
  ]
}

function existingBank(span: LaidSpan): EquipmentDraft[] {
  const bank: RegulatorDraft = {
    id: `regulator-${span.from.id}`,
    pole: span.from.id,
    span: span.id,
    kind: 'regulator',
    name: 'Anvil regulators',
    phases: 'ABC',
    installedYear: 2011,
    windingType: 'B',
    ratingKva: 288,
    ratingA: 200,
    ptRatio: 120,
    ctPrimaryA: 200,
    bandCentreV: 124,
    bandwidthV: 2,
    rV: 0,
    xV: 0,
    delayS: 30,
    tapA: 6,
    tapB: 7,
    tapC: 8,
  }
  return [bank, arresters(span.from, 'ABC', span.from.id)]
}

/** Open switch and step-down transformer on the last span, toward the other feeder's pole. */
function tie(feeder: LaidFeeder): EquipmentDraft[] {
  const span = feeder.branches.find(({ plan }) => plan.isTie)?.spans.at(-1)
  if (!span) return []
  return [
    lineSwitch(span, 'open', 'Anvil Cut tie'),
    {
      id: `transformer-${span.from.id}`,
      pole: span.from.id,
      span: span.id,
      kind: 'transformer',
      name: 'Anvil Cut step-down bank',
      phases: 'ABC',
      connection: 'grounded-wye-grounded-wye',
      ratingKva: 1_500,
      highKv: 24.94,
      lowKv: 12.47,
      rPct: 0.9,
      xPct: 4.8,
      installedYear: 1998,
    },
    arresters(span.from, 'ABC', span.from.id),
    cutouts(span.from, 'ABC', span.from.id),
  ]
}

export function thimbleDevices(feeder: LaidFeeder, taken: ReadonlySet<string>): EquipmentDraft[] {
  const capacitor = freeTrunkSpanAt(feeder, 8.2, taken)
  return [
    recloser(trunkSpanAt(feeder, 0), 560, 2009),
    arresters(trunkSpanAt(feeder, 0).from, 'ABC', feeder.source.id),
    lineSwitch(freeTrunkSpanAt(feeder, 2.9, taken), 'closed', 'Creek bridge switch'),
    recloser(freeTrunkSpanAt(feeder, 7.4, taken), 280, 2017),
    {
      id: `capacitor-${capacitor.from.id}`,
      pole: capacitor.from.id,
      kind: 'capacitor',
      name: 'Ninebark capacitors',
      phases: 'ABC',
      kvarA: 50,
      kvarB: 50,
      kvarC: 50,
      installedYear: 1999,
    },
    cutouts(capacitor.from, 'ABC', capacitor.from.id),
    arresters(capacitor.from, 'ABC', capacitor.from.id),
    lineSwitch(freeTrunkSpanAt(feeder, 14.6, taken), 'closed', 'Heddle switch'),
    ...lateralProtection(feeder, new Set(['2'])),
  ]
}
