import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { AcceptInvitationBody, DemoRole, Me } from '#contract/account.ts'
import { mayDo, type Right } from '#contract/rights.ts'
import { keptInWords } from '../device/kept-values.ts'
import { personHere } from '../device/person.ts'
import { call } from './call.ts'
import { ME, noteSignedIn } from './signed-in.ts'

const SESSIONS = ['sessions']

export function useMe() {
  return useQuery({
    queryKey: ME,
    queryFn: ({ signal }) => call('getMe', {}, signal),
    staleTime: Number.POSITIVE_INFINITY,
    // Nobody being signed in is an answer; whoever comes in is told without asking.
    retryOnMount: false,
  })
}

/** Whether the person who is signed in may do something, in any of their roles. */
export function useMay(right: Right): boolean {
  const roles = useMe().data?.roles ?? []
  return roles.some((role) => mayDo({ role }, right))
}

/**
 * The ways in; each goes on as the person who came in.
 *
 * @param onEntered called once the person is known, before the page goes on as them
 */
export function useEntering(onEntered?: (me: Me) => void) {
  const goOn = async (me: Me) => {
    onEntered?.(me)
    await noteSignedIn(me)
  }
  return {
    demo: useMutation({
      mutationFn: (role: DemoRole) => call('enterDemo', { body: { role } }),
      onSuccess: goOn,
    }),
    signIn: useMutation({
      mutationFn: (body: { email: string; password: string }) => call('signIn', { body }),
      onSuccess: (answer) => (answer.state === 'signed-in' ? goOn(answer.me) : undefined),
    }),
    secondFactor: useMutation({
      mutationFn: (code: string) => call('giveSecondFactor', { body: { code } }),
      onSuccess: goOn,
    }),
    accept: useMutation({
      mutationFn: (body: AcceptInvitationBody) => call('acceptInvitation', { body }),
      onSuccess: goOn,
    }),
  }
}

/** What the person typed or chose on this device and what goes when they sign out, in words. */
export function keptOfPerson(): string[] {
  const personId = personHere.get()
  return personId === null ? [] : keptInWords(personId)
}

/** Ends the session and begins the page anew, so that whoever comes next finds nothing open. */
export function useSignOut() {
  return useMutation({
    mutationFn: () => call('signOut', {}),
    onSuccess: () => {
      // Drafts are kept there, and are nobody else's to read.
      window.sessionStorage.clear()
      window.location.assign('/')
    },
  })
}

export function useInvitation(token: string) {
  return useQuery({
    queryKey: ['invitation', token],
    queryFn: ({ signal }) => call('getInvitation', { body: { token } }, signal),
    retry: false,
  })
}

export function useSessions() {
  return useQuery({
    queryKey: SESSIONS,
    queryFn: ({ signal }) => call('listSessions', {}, signal),
    staleTime: 0,
  })
}

export function useSessionChanges() {
  const client = useQueryClient()
  const onSettled = () => client.invalidateQueries({ queryKey: SESSIONS })
  return {
    end: useMutation({
      mutationFn: (sessionId: string) => call('endSession', { params: { sessionId } }),
      onSettled,
    }),
    endOthers: useMutation({ mutationFn: () => call('endOtherSessions', {}), onSettled }),
  }
}

export function useChangePassword() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: { current: string; next: string }) => call('changePassword', { body }),
    onSuccess: () => client.invalidateQueries({ queryKey: SESSIONS }),
  })
}

/** Beginning, confirming and giving up a second factor. */
export function useSecondFactor() {
  const client = useQueryClient()
  const onSuccess = (me: Me) => client.setQueryData(ME, me)
  return {
    start: useMutation({
      mutationFn: (password: string) => call('startSecondFactor', { body: { password } }),
    }),
    confirm: useMutation({
      mutationFn: (code: string) => call('confirmSecondFactor', { body: { code } }),
      onSuccess,
    }),
    remove: useMutation({
      mutationFn: (password: string) => call('removeSecondFactor', { body: { password } }),
      onSuccess,
    }),
  }
}
