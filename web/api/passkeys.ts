import {
  type PublicKeyCredentialCreationOptionsJSON,
  type PublicKeyCredentialRequestOptionsJSON,
  startAuthentication,
  startRegistration,
} from '@simplewebauthn/browser'
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { z } from 'zod'
import type { Me } from '#contract/account.ts'
import { askLibrary } from './ask-library.ts'
import { call } from './call.ts'
import { noteSignedIn } from './signed-in.ts'

const PASSKEYS = ['passkeys']
const Passkeys = z.array(
  z.object({ id: z.string(), name: z.string().nullish(), createdAt: z.string().nullish() }),
)
/** Checked by the browser, which alone knows what it can do. */
const CreationOptions = z.custom<PublicKeyCredentialCreationOptionsJSON>()
const RequestOptions = z.custom<PublicKeyCredentialRequestOptionsJSON>()

/** Signs in with a passkey of this device (Web Authentication Level 3). */
export function usePasskeySignIn(onEntered?: (me: Me) => void) {
  return useMutation({
    mutationFn: async () => {
      const optionsJSON = await askLibrary('/passkey/generate-authenticate-options', RequestOptions)
      const response = await byHand(() => startAuthentication({ optionsJSON }))
      await askLibrary('/passkey/verify-authentication', z.unknown(), { response })
      return call('getMe', {})
    },
    onSuccess: async (me) => {
      onEntered?.(me)
      await noteSignedIn(me)
    },
  })
}

export function usePasskeys(isWanted: boolean) {
  return useQuery({
    queryKey: PASSKEYS,
    queryFn: () => askLibrary('/passkey/list-user-passkeys', Passkeys),
    enabled: isWanted,
  })
}

export function usePasskeyChanges() {
  const client = useQueryClient()
  const onSettled = () => client.invalidateQueries({ queryKey: PASSKEYS })
  return {
    add: useMutation({
      mutationFn: async (name: string) => {
        const optionsJSON = await askLibrary('/passkey/generate-register-options', CreationOptions)
        const response = await byHand(() => startRegistration({ optionsJSON }))
        await askLibrary('/passkey/verify-registration', z.unknown(), { response, name })
      },
      onSettled,
    }),
    remove: useMutation({
      mutationFn: (id: string) => askLibrary('/passkey/delete-passkey', z.unknown(), { id }),
      onSettled,
    }),
  }
}

/** What the browser says of a person who turned away is for programs only. */
async function byHand<Answer>(ask: () => Promise<Answer>): Promise<Answer> {
  try {
    return await ask()
  } catch (cause) {
    const isKnown = cause instanceof Error && cause.name === 'InvalidStateError'
    throw new Error(
      isKnown
        ? 'This device already has a passkey for your account.'
        : 'No passkey was given: it was cancelled, took too long, or this device has none.',
      { cause },
    )
  }
}
