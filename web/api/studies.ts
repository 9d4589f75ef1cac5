import { type QueryClient, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { type Study, StudyEvent } from '#contract/studies.ts'
import { hasEnded } from '#contract/work.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { call } from './call.ts'

const keyOf = (studyId: string | null) => ['study', studyId]

/** A study, kept true by the server's events as long as it runs. */
export function useStudy(studyId: string | null) {
  const client = useQueryClient()
  const query = useQuery({
    queryKey: keyOf(studyId),
    queryFn: ({ signal }) => call('getStudy', { params: { studyId: studyId ?? '' } }, signal),
    enabled: studyId !== null,
    staleTime: Number.POSITIVE_INFINITY,
  })
  const isRunning = query.data !== undefined && !hasEnded(query.data.state)
  useEffect(() => {
    if (studyId !== null && isRunning) return followTogether(client, studyId)
  }, [client, studyId, isRunning])
  return query
}

interface Following {
  parts: number
  readonly leave: () => void
}

const following = new Map<string, Following>()

/** One stream a study, however many parts of the page look at it: a browser keeps six connections. */
function followTogether(client: QueryClient, studyId: string): () => void {
  const followed = following.get(studyId) ?? { parts: 0, leave: followStudy(client, studyId) }
  followed.parts += 1
  following.set(studyId, followed)
  return () => {
    followed.parts -= 1
    if (followed.parts > 0) return
    following.delete(studyId)
    followed.leave()
  }
}

const EVENTS = ['progress', 'done', 'failed', 'cancelled'] as const
const ASK_AGAIN_MS = 1_500

/** Listens until the study ends; where the stream breaks, asks and listens again after a while. */
function followStudy(client: QueryClient, studyId: string): () => void {
  let isLeft = false
  let timer: number | undefined
  let events = listen()

  function listen(): EventSource {
    const source = new EventSource(`/api/studies/${encodeURIComponent(studyId)}/events`)
    for (const event of EVENTS) {
      source.addEventListener(event, ({ data }: MessageEvent<string>) => {
        const told = StudyEvent.parse({ event, data: JSON.parse(data) })
        client.setQueryData<Study>(keyOf(studyId), (old) =>
          told.event === 'progress' ? old && { ...old, ...told.data } : told.data,
        )
      })
    }
    source.addEventListener('error', () => {
      source.close()
      timer = window.setTimeout(() => void listenAgain(), ASK_AGAIN_MS)
    })
    return source
  }

  /** Asking first leads over a session that has ended, and over a study that has. */
  async function listenAgain(): Promise<void> {
    await client.invalidateQueries({ queryKey: keyOf(studyId) })
    if (!isLeft) events = listen()
  }

  return () => {
    isLeft = true
    events.close()
    window.clearTimeout(timer)
  }
}

export function useStartStudy(feederId: string) {
  return useMutation({
    mutationFn: (request: SiteRequest) =>
      call('startStudy', { params: { feederId }, body: { request } }),
  })
}

export function useCancelStudy() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (studyId: string) => call('cancelStudy', { params: { studyId } }),
    onSuccess: (study) => client.setQueryData(keyOf(study.id), study),
  })
}
