import { QueryClient } from '@tanstack/react-query'
import { ProblemError } from '#contract/read-answer.ts'

/** A refusal stays a refusal; only a lost connection is worth a second try. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 60_000,
      refetchOnWindowFocus: false,
      retry: (count, error) => !(error instanceof ProblemError) && count < 2,
    },
  },
})
