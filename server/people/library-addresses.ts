import type { AccountStep } from '../services/people-ports.ts'
import { OWN_SIGN_ON } from './auth.ts'

export interface LibraryAddress {
  readonly method: 'GET' | 'POST'
  /** Below the library's own path. */
  readonly path: `/${string}`
  /** What has to be set up for it to be there. */
  readonly partOf: 'sign-on' | 'passkeys'
  /** What goes into the history of the person where it succeeds. */
  readonly step?: AccountStep
}

/**
 * The only addresses of the library of sign-in that are reachable; all that it could do beside them
 * is done by routes of our own, which hold the table of rights and count tries. Whoever asks here is
 * known by the session, or proves who they are.
 */
export const LIBRARY_ADDRESSES: readonly LibraryAddress[] = [
  { method: 'POST', path: '/sign-in/social', partOf: 'sign-on' },
  { method: 'GET', path: `/callback/${OWN_SIGN_ON}`, partOf: 'sign-on' },
  { method: 'GET', path: '/passkey/generate-authenticate-options', partOf: 'passkeys' },
  { method: 'POST', path: '/passkey/verify-authentication', partOf: 'passkeys' },
  { method: 'GET', path: '/passkey/generate-register-options', partOf: 'passkeys' },
  {
    method: 'POST',
    path: '/passkey/verify-registration',
    partOf: 'passkeys',
    step: 'passkey-added',
  },
  { method: 'GET', path: '/passkey/list-user-passkeys', partOf: 'passkeys' },
  { method: 'POST', path: '/passkey/delete-passkey', partOf: 'passkeys', step: 'passkey-removed' },
]
