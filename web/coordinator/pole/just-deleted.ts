import type { ProtectionRecord } from '#contract/protections.ts'
import { shareValue } from '../../device/shared-value.ts'

/** Entries deleted here since the page was opened, so that each can be brought back in its place. */
export const justDeleted = shareValue<readonly ProtectionRecord[]>([])
