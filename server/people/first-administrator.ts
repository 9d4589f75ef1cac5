import type { StoredPerson } from '../services/people-ports.ts'

/** Stands for the email of the first administrator until they have said theirs; nobody can have it. */
export const FIRST_EMAIL = 'first-administrator@crossarm.invalid'

export function isFirstAdministrator({ email }: StoredPerson): boolean {
  return email === FIRST_EMAIL
}
