import { useState } from 'react'
import { Field } from './field.tsx'

/** NIST SP 800-63B asks for length, not for kinds of characters. */
export const LEAST_PASSWORD_LENGTH = 12

export interface PasswordPairState {
  readonly password: string
  readonly again: string
  /** What is wrong, to be said once the person tries to go on; null where nothing is. */
  readonly fault: { readonly field: 'password' | 'again'; readonly words: string } | null
  readonly setPassword: (text: string) => void
  readonly setAgain: (text: string) => void
}

export function usePasswordPair(): PasswordPairState {
  const [password, setPassword] = useState('')
  const [again, setAgain] = useState('')
  return { password, again, fault: faultOf(password, again), setPassword, setAgain }
}

function faultOf(password: string, again: string): PasswordPairState['fault'] {
  if (password.length < LEAST_PASSWORD_LENGTH) {
    const words = `Take at least ${LEAST_PASSWORD_LENGTH} characters; a few words in a row are fine.`
    return { field: 'password', words }
  }
  if (password !== again) return { field: 'again', words: 'The two are not the same.' }
  return null
}

interface Props {
  readonly pair: PasswordPairState
  readonly areFaultsShown: boolean
}

/** A new password, typed twice. */
export function PasswordPair({ pair, areFaultsShown }: Props) {
  const faultAt = (field: 'password' | 'again') =>
    areFaultsShown && pair.fault?.field === field ? pair.fault.words : null
  return (
    <>
      <Field
        label="New password"
        hint={`At least ${LEAST_PASSWORD_LENGTH} characters. Length is what counts.`}
        fault={faultAt('password')}
      >
        {(control) => (
          <input
            className="input"
            type="password"
            autoComplete="new-password"
            value={pair.password}
            onChange={({ target }) => pair.setPassword(target.value)}
            {...control}
          />
        )}
      </Field>
      <Field label="The same once more" fault={faultAt('again')}>
        {(control) => (
          <input
            className="input"
            type="password"
            autoComplete="new-password"
            value={pair.again}
            onChange={({ target }) => pair.setAgain(target.value)}
            {...control}
          />
        )}
      </Field>
    </>
  )
}
