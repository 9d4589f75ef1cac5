import type { Signer, Step } from '#domain/jobs/step-sequence.ts'
import type { Phase } from '#domain/units/phases.ts'

/** Names that stand under a step. */
const SIGNATURES: Readonly<Record<Signer, readonly string[]>> = {
  'one of the crew': ['Signed'],
  'two of the crew': ['Signed', 'and'],
  'person in charge': ['Person in charge'],
}

/** Lines to sign on: a step that is done at each unit is signed at each, as on the device. */
export function signatureLines(
  { each, signedBy }: Pick<Step, 'each' | 'signedBy'>,
  phases: readonly Phase[],
): string[] {
  const lines = SIGNATURES[signedBy]
  if (each === 'once' || phases.length === 0) return [...lines]
  return phases.flatMap((phase) => lines.map((words) => `${phase}: ${words}`))
}
