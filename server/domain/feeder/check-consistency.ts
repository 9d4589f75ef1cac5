import { includesPhases, type PhaseMask, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import { checkRegulator } from './check-regulators.ts'
import type { Equipment } from './equipment.ts'
import type { Feeder } from './feeder.ts'
import type { Finding, LayerName } from './finding.ts'
import type { Position } from './geometry.ts'
import type { LineType } from './line-type.ts'
import type { Span } from './span.ts'

/** Records that contradict each other or themselves though each has its right form. */
export function checkConsistency(feeder: Feeder): Finding[] {
  const lineTypes = new Map(feeder.header.lineTypes.map((type) => [type.id, type]))
  const spans = new Map(feeder.spans.map((span) => [span.id, span]))
  const places = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const atPole = phasesAtPoles(feeder.spans)
  return [
    ...limitFindings(feeder),
    ...feeder.spans.flatMap((span) => spanFindings(span, lineTypes)),
    ...feeder.equipment.flatMap((item) =>
      equipmentFindings(item, spans, atPole.get(item.pole), places.get(item.pole) ?? null),
    ),
  ]
}

function problem(
  layer: LayerName,
  featureId: string,
  place: Position | null,
  code: string,
  what: string,
  remedy: string,
): Finding {
  return { severity: 'error', code, layer, featureId, place, what, remedy }
}

function limitFindings({ header }: Feeder): Finding[] {
  const { lowVolts120, highVolts120 } = header.limits
  if (lowVolts120 < highVolts120) return []
  return [
    problem(
      'feeder',
      header.id,
      null,
      'limits-reversed',
      `The low limit (${lowVolts120} V) is not below the high limit (${highVolts120} V).`,
      'Correct limits.low_volts120 and limits.high_volts120.',
    ),
  ]
}

function spanFindings(span: Span, lineTypes: ReadonlyMap<string, LineType>): Finding[] {
  const report = (code: string, what: string, remedy: string) =>
    problem('spans', span.id, span.path[0] ?? null, code, what, remedy)
  const findings: Finding[] = []
  if (span.from === span.to) {
    findings.push(
      report('span-to-itself', `It starts and ends at pole "${span.from}".`, 'Correct from or to.'),
    )
  }
  if (span.lineType === undefined && span.lengthM !== 0) {
    findings.push(
      report(
        'jumper-with-length',
        'It has no line type, as a jumper, but length_m is not 0.',
        'Name its line_type, or set length_m to 0 if it has no impedance.',
      ),
    )
  }
  const lineType = span.lineType === undefined ? undefined : lineTypes.get(span.lineType)
  const missing = lineType ? phaseMask(span.phases) & ~lineTypeMask(lineType) : 0
  if (lineType && missing !== 0) {
    findings.push(
      report(
        'line-type-lacks-phase',
        `It carries ${named(phaseMask(span.phases))}, but its line type "${lineType.id}" has no ${named(missing)}.`,
        'Correct phases, or name another line_type.',
      ),
    )
  }
  return findings
}

function equipmentFindings(
  item: Equipment,
  spans: ReadonlyMap<string, Span>,
  maskAtPole: PhaseMask | undefined,
  place: Position | null,
): Finding[] {
  const report = (code: string, what: string, remedy: string) =>
    problem('equipment', item.id, place, code, what, remedy)
  const span = 'span' in item && item.span !== undefined ? spans.get(item.span) : undefined
  const ofPlace = span ? seriesFindings(item, span, report) : poleFindings(item, maskAtPole, report)
  const ofKind =
    item.kind === 'regulator'
      ? checkRegulator(item, (severity, code, what, remedy) => ({
          ...report(code, what, remedy),
          severity,
        }))
      : ratingFindings(item, report)
  return [...ofPlace, ...ofKind]
}

type Report = (code: string, what: string, remedy: string) => Finding

/** What stands in a line must be at its near end, and on phases that the line has. */
function seriesFindings(item: Equipment, span: Span, report: Report): Finding[] {
  const findings: Finding[] = []
  if (span.from !== item.pole) {
    findings.push(
      report(
        'not-at-near-end',
        `It stands on pole "${item.pole}", but its span "${span.id}" starts at pole "${span.from}".`,
        'Series equipment sits at the near end: correct pole or span, or swap from and to of the span.',
      ),
    )
  }
  const both = `It is on ${named(phaseMask(item.phases))}; its span "${span.id}" carries ${named(phaseMask(span.phases))}`
  if (item.kind === 'transformer' && item.phases !== span.phases) {
    findings.push(
      report(
        'transformer-not-on-whole-span',
        `${both}, and behind a transformer every phase has the new voltage.`,
        'Give the transformer all phases of the span, or split the span by phases.',
      ),
    )
  } else if (!includesPhases(span.phases, item.phases)) {
    const remedy = 'Correct the phases of one of the two.'
    findings.push(report('equipment-phase-not-on-span', `${both}.`, remedy))
  }
  return findings
}

function poleFindings(
  item: Equipment,
  maskAtPole: PhaseMask | undefined,
  report: Report,
): Finding[] {
  if (maskAtPole === undefined || (phaseMask(item.phases) & ~maskAtPole) === 0) return []
  const found = report(
    'equipment-phase-not-at-pole',
    `It is on ${named(phaseMask(item.phases))}; the spans at pole "${item.pole}" carry ${named(maskAtPole)}.`,
    'Correct its phases, or those of the spans.',
  )
  return [{ ...found, severity: 'warning' }]
}

/** What a device cannot be solved without. */
function ratingFindings(item: Equipment, report: Report): Finding[] {
  if (item.kind === 'transformer' && item.span !== undefined) {
    const missing = (['highKv', 'lowKv', 'rPct', 'xPct'] as const).filter(
      (key) => item[key] === undefined,
    )
    const spelt = { highKv: 'high_kv', lowKv: 'low_kv', rPct: 'r_pct', xPct: 'x_pct' }
    if (missing.length > 0) {
      const list = missing.map((key) => spelt[key]).join(', ')
      return [
        report(
          'transformer-incomplete',
          `A transformer in series needs ${list}.`,
          `Add ${list}, or leave span out if it is a service transformer.`,
        ),
      ]
    }
  }
  return []
}

/** Phases of all spans that touch a pole. */
function phasesAtPoles(spans: readonly Span[]): Map<string, PhaseMask> {
  const masks = new Map<string, PhaseMask>()
  for (const { from, to, phases } of spans) {
    for (const pole of [from, to]) masks.set(pole, (masks.get(pole) ?? 0) | phaseMask(phases))
  }
  return masks
}

function lineTypeMask(lineType: LineType): PhaseMask {
  const { A, B, C } =
    lineType.kind === 'matrix'
      ? { A: lineType.zOhmPerKm.AA, B: lineType.zOhmPerKm.BB, C: lineType.zOhmPerKm.CC }
      : Object.fromEntries(lineType.positions.map((position) => [position.role, position]))
  return (A ? 1 : 0) | (B ? 2 : 0) | (C ? 4 : 0)
}

function named(mask: PhaseMask): string {
  const phases = phasesOfMask(mask)
  return `phase${phases.length > 1 ? 's' : ''} ${phases.join(', ')}`
}
