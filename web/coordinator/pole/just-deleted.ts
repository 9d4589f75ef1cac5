import type { ProtectionRecord } from '#contract/protections.ts'
import { createStore } from '../../state/store.ts'

/** Entries deleted here since the page was opened, so that each can be brought back in its place. */
export const justDeleted = createStore<readonly ProtectionRecord[]>([])
