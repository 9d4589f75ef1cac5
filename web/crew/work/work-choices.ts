import { z } from 'zod'
import { keptOnDevice } from './kept-on-device.ts'

/** What the crew set for this device. */
const WorkChoices = z.object({
  /** Whether the device buzzes and beeps as steps pass or do not. */
  hasSignals: z.boolean(),
})
export type WorkChoices = z.infer<typeof WorkChoices>

const choices = keptOnDevice('work-choices', WorkChoices)
const KEY = 'device'
const AT_FIRST: WorkChoices = { hasSignals: false }

export function useWorkChoices(): WorkChoices {
  return choices.use(KEY) ?? AT_FIRST
}

export function chooseSignals(hasSignals: boolean): void {
  choices.keep(KEY, { hasSignals })
}

export function currentWorkChoices(): WorkChoices {
  return choices.get(KEY) ?? AT_FIRST
}
