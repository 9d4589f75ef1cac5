import { useQuery } from '@tanstack/react-query'
import { call } from './call.ts'

const NAMES_STAND_MS = 10 * 60_000

/** Turns the id of a person or a machine into a name; ids themselves are never shown. */
export function useNames(): (id: string) => string {
  const { data, isPending } = useQuery({
    queryKey: ['names'],
    queryFn: ({ signal }) => call('listNames', {}, signal),
    staleTime: NAMES_STAND_MS,
  })
  return (id) => data?.names[id] ?? (isPending ? '…' : 'someone not listed')
}
