import { z } from 'zod'
import { PoleTopChoice } from '#domain/avian/pole-top/pole-top-choice.ts'
import { Id } from '#domain/feeder/identifiers.ts'
import { Kept } from './versioned.ts'

export const PoleTopParams = z.object({ feederId: Id, poleId: Id })

/** `version` is the one that the person saw, 0 where nothing was chosen for the pole yet. */
export const ChoosePoleTopBody = PoleTopChoice.omit({ pole: true }).extend({
  version: z.number().int().min(0),
})

/** Its id is that of the pole. */
export const PoleTopRecord = PoleTopChoice.extend({ id: Id, ...Kept })

export type ChoosePoleTopBody = z.infer<typeof ChoosePoleTopBody>
export type PoleTopRecord = z.infer<typeof PoleTopRecord>
