import { checkConsistency } from './check-consistency.ts'
import { checkDuplicates } from './check-duplicates.ts'
import { checkReferences, type DeclaredIds } from './check-references.ts'
import type { Feeder } from './feeder.ts'
import type { Finding } from './finding.ts'

/** Everything that can be said about the records without following the line. */
export function checkRecords(feeder: Feeder, declared: DeclaredIds = {}): Finding[] {
  return [
    ...checkDuplicates(feeder),
    ...checkReferences(feeder, declared),
    ...checkConsistency(feeder),
  ]
}
