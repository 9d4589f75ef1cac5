import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import type { ChangePersonBody, InvitePersonBody } from '#contract/people.ts'
import { call } from './call.ts'

const PEOPLE = ['people']
const NAMES = ['names']

export function usePeople() {
  return useQuery({
    queryKey: PEOPLE,
    queryFn: ({ signal }) => call('listPeople', {}, signal),
    staleTime: 0,
  })
}

export function usePeopleChanges() {
  const client = useQueryClient()
  const onSettled = async () => {
    await client.invalidateQueries({ queryKey: PEOPLE })
    await client.invalidateQueries({ queryKey: NAMES })
  }
  return {
    invite: useMutation({
      mutationFn: (body: InvitePersonBody) => call('invitePerson', { body }),
      onSettled,
    }),
    renew: useMutation({
      mutationFn: (personId: string) => call('renewInvitation', { params: { personId } }),
      onSettled,
    }),
    change: useMutation({
      mutationFn: ({ personId, body }: { personId: string; body: ChangePersonBody }) =>
        call('changePerson', { params: { personId }, body }),
      onSettled,
    }),
  }
}
