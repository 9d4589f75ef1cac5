import type { ProtectionRecord } from '#contract/protections.ts'
import { createStore, useStore } from '../state/store.ts'

/** Entries deleted since the page was opened, newest first, so that each can be brought back. */
const deleted = createStore<readonly ProtectionRecord[]>([])

export function rememberDeleted(item: ProtectionRecord): void {
  deleted.set([item, ...deleted.get().filter(({ id }) => id !== item.id)])
}

export function forgetDeleted(id: string): void {
  deleted.set(deleted.get().filter((item) => item.id !== id))
}

export function useDeletedItems(pole: string): readonly ProtectionRecord[] {
  return useStore(deleted).filter((item) => item.pole === pole)
}
