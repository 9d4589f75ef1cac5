import type { Finding } from '#domain/feeder/finding.ts'
import type { ExitCode, Streams } from './command.ts'
import type { FeederReading, FeederTools } from './feeder-tools.ts'

/** One finding on one line: file, feature, severity, what is wrong and what to do. */
export function findingLine(finding: Finding, { fileOfLayer }: FeederTools): string {
  const { layer, featureId, severity, what, remedy, code } = finding
  const where = featureId === null ? fileOfLayer(layer) : `${fileOfLayer(layer)}: ${featureId}`
  const lines = `${where}: ${severity}: ${what} ${remedy} [${code}]`.split('\n')
  return lines.map((line) => line.trim()).join(' ')
}

/** Code for a reading that was refused: its files cannot be read, or what stands in them is wrong. */
export function refusalCode(findings: readonly Finding[], { isUnreadable }: FeederTools): ExitCode {
  return findings.some(isUnreadable) ? 2 : 1
}

/** Prints what reading found, but for notices, on the error stream. */
export function reportReading(
  { findings }: FeederReading,
  streams: Streams,
  tools: FeederTools,
): void {
  for (const finding of findings) {
    if (finding.severity !== 'notice') streams.err(findingLine(finding, tools))
  }
}
