import { isAPIError } from 'better-auth/api'
import { Refusal } from '../services/refusal.ts'

/** The same whether the email is unknown, the password wrong or the account closed: which one is nobody's business. */
export function signInRefused(): Refusal {
  return new Refusal('sign-in-refused', 'Email and password do not belong together.')
}

/** The code by which the library of sign-in says what it refuses; anything else is thrown on. */
export function codeOfRefusal(error: unknown): string {
  if (!isAPIError(error) || error.statusCode >= 500) throw error
  return String(error.body?.code ?? '')
}
