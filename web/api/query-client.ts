import { QueryClient } from '@tanstack/react-query'
import { ProblemError } from '#contract/read-answer.ts'
import { connection } from '../device/connection.ts'

/**
 * A refusal stays a refusal, and a server that is away is asked again by `connection.ts`. Questions
 * are asked without connection too: the device may hold the answer.
 */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 60_000,
      refetchOnWindowFocus: false,
      networkMode: 'always',
      retry: (count, error) =>
        !(error instanceof ProblemError) && connection.get().isHere && count < 2,
    },
    mutations: { networkMode: 'always' },
  },
})
