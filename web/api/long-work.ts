import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { TakeInBody } from '#contract/feeders.ts'
import type { HistoryReportRequest } from '#contract/reports.ts'
import { hasEnded, type WorkKindName, type WorkSummary } from '#contract/work.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { call } from './call.ts'
import { handOver } from './hand-over.ts'

const WORK = ['long-work']

/** Looked at again this often: streams of many items would take all connections of the browser. */
const UNDER_WAY_MS = 1_000
const AT_REST_MS = 15_000

/** Long work of any kind, newest first; parts of one item where it is named. */
export function useWorkList(partOf: string | null = null) {
  return useQuery({
    queryKey: [...WORK, 'list', partOf],
    queryFn: ({ signal }) => call('listWork', { query: partOf === null ? {} : { partOf } }, signal),
    staleTime: 0,
    refetchInterval: ({ state }) =>
      state.data?.some((item) => !hasEnded(item.state)) ? UNDER_WAY_MS : AT_REST_MS,
  })
}

/** One item with its result, looked at until it has ended. */
export function useWork(workId: string | null) {
  return useQuery({
    queryKey: [...WORK, workId],
    queryFn: ({ signal }) => call('getWork', { params: { workId: workId ?? '' } }, signal),
    enabled: workId !== null,
    staleTime: 0,
    refetchInterval: ({ state }) =>
      state.data && hasEnded(state.data.state) ? false : UNDER_WAY_MS,
  })
}

/** Starting, cancelling and fetching long work. */
export function useWorkChanges() {
  const client = useQueryClient()
  const onSettled = () => client.invalidateQueries({ queryKey: WORK })
  return {
    cancel: useMutation({ mutationFn: cancelWork, onSettled }),
    report: useMutation({
      mutationFn: (body: HistoryReportRequest) => call('startHistoryReport', { body }),
      onSettled,
    }),
    takeIn: useMutation({
      mutationFn: (body: TakeInBody) => call('startImport', { body }),
      onSettled,
    }),
    studies: useMutation({
      mutationFn: (body: { feederIds: string[]; request: SiteRequest }) =>
        call('startStudies', { body }),
      onSettled,
    }),
    fetchReport: useMutation({ mutationFn: fetchReport }),
  }
}

const CANCELS = {
  siting: (id) => call('cancelStudy', { params: { studyId: id } }),
  'siting-many': (workId) => call('cancelStudies', { params: { workId } }),
  'take-in': (workId) => call('cancelImport', { params: { workId } }),
  'history-report': (workId) => call('cancelHistoryReport', { params: { workId } }),
} as const satisfies Record<WorkKindName, (id: string) => Promise<unknown>>

function cancelWork({ kind, id }: Pick<WorkSummary, 'kind' | 'id'>): Promise<unknown> {
  return CANCELS[kind](id)
}

async function fetchReport(workId: string): Promise<void> {
  const { result } = await call('getWork', { params: { workId } })
  const file = await call('getReportFile', { params: { workId } })
  if (!(file instanceof Blob)) throw new Error('Expected a file, got something else.')
  handOver(file, fileNameOf(result))
}

function fileNameOf(result: unknown): string {
  const { fileName } = (result ?? {}) as { fileName?: unknown }
  return typeof fileName === 'string' ? fileName : 'history'
}
