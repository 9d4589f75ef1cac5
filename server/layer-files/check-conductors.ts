import { CONDUCTORS } from '#domain/electrical/conductor-table.ts'
import { haveDistinctPositions } from '#domain/electrical/line-constants.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import type { FeederHeader } from '#domain/feeder/header.ts'
import { finding } from './layer-finding.ts'

/** Line types whose positions cannot give an impedance. */
export function checkConductors(header: FeederHeader): Finding[] {
  const subject = { layer: 'feeder' as const, featureId: header.id }
  return header.lineTypes.flatMap((lineType) => {
    if (lineType.kind !== 'geometry') return []
    const unknown = [...new Set(lineType.positions.map(({ conductor }) => conductor))].filter(
      (conductor) => !CONDUCTORS.has(conductor),
    )
    const findings = unknown.map((conductor) =>
      finding(
        'error',
        'no-such-conductor',
        subject,
        `Line type "${lineType.id}" names the conductor "${conductor}", which is not in the table.`,
        `Use one of the table, as ${nearestConductors(conductor)}.`,
      ),
    )
    if (!haveDistinctPositions(lineType.positions)) {
      findings.push(
        finding(
          'error',
          'conductors-coincide',
          subject,
          `Line type "${lineType.id}" has two conductors in one place.`,
          'Correct x_m and height_m of its positions.',
        ),
      )
    }
    return findings
  })
}

/** Conductors that share the size or the most words with what was written. */
function nearestConductors(written: string): string {
  const words = written.toLowerCase().split(/[\s,]+/)
  const shared = (id: string) =>
    id
      .toLowerCase()
      .split(' ')
      .filter((word) => words.includes(word)).length
  return [...CONDUCTORS.keys()]
    .sort((a, b) => shared(b) - shared(a))
    .slice(0, 3)
    .map((id) => `"${id}"`)
    .join(', ')
}
