import type { z } from 'zod'
import type { StepSequence } from '../step-sequence.ts'

/** A sequence as it is written down: what is usual may be left out. */
export type SequenceDraft = z.input<typeof StepSequence>
