import { useQuery } from '@tanstack/react-query'
import type { Me } from '#contract/account.ts'
import { useIsServerHere } from '../device/connection.ts'
import { notePerson } from '../device/person.ts'
import { queryClient } from './query-client.ts'

export const ME = ['me'] as const
export const SESSION_ENDED = ['session-ended'] as const
/** What is the same for whoever asks. */
const FOR_ALL: readonly unknown[] = [ME[0], SESSION_ENDED[0], 'settings']

let waiting: ((isSamePerson: boolean) => void)[] = []
const entered = new Set<() => void>()

/** Calls each time somebody has signed in on this page. */
export function onSignedIn(listener: () => void): () => void {
  entered.add(listener)
  return () => entered.delete(listener)
}

/** Calls each time the page has learned who is signed in. */
export function onMe(listener: () => void): () => void {
  return queryClient.getQueryCache().subscribe(({ type, query }) => {
    if (type === 'updated' && query.queryKey[0] === ME[0]) listener()
  })
}

/** Who was signed in last on this page, as far as it was told. */
export function knownMe(): Me | undefined {
  return queryClient.getQueryData<Me>(ME)
}

/** Roles may have been changed meanwhile; the screens then learn what the person may do now. */
export function askForMeAgain(): void {
  void queryClient.invalidateQueries({ queryKey: ME })
}

export function noteSessionEnded(): void {
  queryClient.setQueryData(SESSION_ENDED, true)
}

/**
 * Whether the server asked to sign in, and nobody has since. Without connection nobody can, so
 * work goes on until there is one.
 */
export function useSessionEnded(): boolean {
  const query = useQuery({
    queryKey: SESSION_ENDED,
    queryFn: () => false,
    initialData: false,
    staleTime: Number.POSITIVE_INFINITY,
  })
  const isHere = useIsServerHere()
  return query.data && (isHere || !knownMe())
}

/** Waits until somebody signed in on this page; tells whether it is who was signed in before. */
export function signedInAgain(signal?: AbortSignal): Promise<boolean> {
  return new Promise((resolve, reject) => {
    waiting.push(resolve)
    signal?.addEventListener('abort', () => reject(signal.reason), { once: true })
  })
}

/** Goes on as this person: what another one saw is let go, what was asked meanwhile is asked again. */
export async function noteSignedIn(me: Me): Promise<void> {
  const isSamePerson = knownMe()?.id === me.id
  void notePerson(me.id)
  queryClient.setQueryData(ME, me)
  queryClient.setQueryData(SESSION_ENDED, false)
  const resolvers = waiting
  waiting = []
  for (const resolve of resolvers) resolve(isSamePerson)
  for (const listener of [...entered]) listener()
  const ofThePerson = { predicate: isOfThePerson }
  if (isSamePerson) await queryClient.invalidateQueries(ofThePerson)
  else await queryClient.resetQueries(ofThePerson)
}

function isOfThePerson({ queryKey }: { readonly queryKey: readonly unknown[] }): boolean {
  return !FOR_ALL.includes(queryKey[0])
}
