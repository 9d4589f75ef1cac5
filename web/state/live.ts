import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { followChanges, type Notice } from '../api/follow-changes.ts'
import { refreshAfter, refreshFetchedBefore } from '../api/refresh-after.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

/** A stream that is back sooner than this is not worth a word. */
const PAUSED_AFTER_MS = 12_000

const paused = shareValue(false)
/** The newest change of each thing that was told since the page was opened. */
const newest = shareValue<Readonly<Record<string, Notice>>>({})

const keyOf = (subject: Notice['subject'], subjectId: string): string => `${subject}~${subjectId}`

/** Whether changes by others do not arrive at present. */
export function useIsPaused(): boolean {
  return useShared(paused)
}

/** The last change of a thing that was told while this page is open, or null. */
export function useNewestChange(subject: Notice['subject'], subjectId: string): Notice | null {
  return useShared(newest)[keyOf(subject, subjectId)] ?? null
}

/** Follows the record as long as the calling screen stands: once per page. */
export function useLiveChanges(): void {
  const client = useQueryClient()
  useEffect(() => {
    let timer: number | undefined
    let hasFollowed = false
    const onState = (isOpen: boolean) => {
      if (isOpen) {
        if (!hasFollowed) void refreshFetchedBefore(client)
        hasFollowed = true
        window.clearTimeout(timer)
        timer = undefined
        paused.set(false)
      } else {
        timer ??= window.setTimeout(() => paused.set(true), PAUSED_AFTER_MS)
      }
    }
    const onNotice = (notice: Notice) => {
      newest.set({ ...newest.get(), [keyOf(notice.subject, notice.subjectId)]: notice })
      void refreshAfter(client, notice)
    }
    const stop = followChanges({ onNotice, onState })
    return () => {
      stop()
      window.clearTimeout(timer)
      paused.set(false)
    }
  }, [client])
}
