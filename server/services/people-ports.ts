import type { AccountStep } from '#contract/account.ts'
import type { Person, Token } from '#contract/people.ts'
import type { Stamp, Written } from './ports.ts'

export type { AccountStep } from '#contract/account.ts'
export type { Role } from '#contract/actor.ts'
export type { Person, Token } from '#contract/people.ts'
export type { Right } from '#contract/rights.ts'

/** A person as kept. */
export interface StoredPerson extends Person {
  /** One of the people of the demo, who need no password. */
  readonly isDemo: boolean
}

export type NewPerson = Pick<StoredPerson, 'id' | 'name' | 'email' | 'roles' | 'state' | 'isDemo'>

/** Kept in place of the secret of an invitation. */
export interface NewInvitation {
  readonly secretHash: string
  readonly endsAt: string
}

/** What a person says of themselves when they come in. */
export interface AcceptedAs {
  readonly name: string
  readonly email: string
  readonly passwordHash: string
}

export interface StoredInvitation {
  readonly person: StoredPerson
  readonly endsAt: string
}

/** How adding went; an email belongs to one person only. */
export type Added =
  | { readonly status: 'added'; readonly person: StoredPerson }
  | { readonly status: 'email-taken' }

export interface PersonStore {
  /** By name, closed ones too. */
  list(): Promise<StoredPerson[]>
  find(personId: string): Promise<StoredPerson | null>
  findByEmail(email: string): Promise<StoredPerson | null>
  /** Of those active. */
  countAdministrators(): Promise<number>
  hasSecondFactor(personId: string): Promise<boolean>
  hasPassword(personId: string): Promise<boolean>
  add(person: NewPerson, stamp: Stamp, invitation?: NewInvitation): Promise<Added>
  /** Closing ends all sessions. `wrong-state` where no active administrator would be left. */
  change(
    personId: string,
    version: number,
    next: Pick<Person, 'name' | 'roles' | 'state'>,
    stamp: Stamp,
  ): Promise<Written<StoredPerson>>
  /** Older invitations of the person no longer work. Null where there is no such person. */
  invite(personId: string, invitation: NewInvitation, stamp: Stamp): Promise<StoredPerson | null>
  findInvitation(secretHash: string): Promise<StoredInvitation | null>
  /**
   * Uses the invitation up: the person is active under name and email, signs in with the password
   * alone, and every session of theirs has ended. Null where it was used or ended meanwhile.
   */
  accept(secretHash: string, given: AcceptedAs, at: string): Promise<Added | null>
  /** An invited person who came by the utility's own sign-on. */
  activate(personId: string, at: string): Promise<void>
  noteSignIn(personId: string, at: string): Promise<void>
  /** Writes a step that was taken with the account into the history of the person. */
  noteStep(personId: string, step: AccountStep, stamp: Stamp): Promise<void>
}

export interface StoredSession {
  readonly id: string
  readonly token: string
  readonly personId: string
  readonly startedAt: string
  readonly endsAt: string
  readonly device: string | null
}

export interface SessionStore {
  /** With its person, by the secret in the cookie. */
  find(token: string): Promise<{ session: StoredSession; person: StoredPerson } | null>
  /** Newest first. */
  listOf(personId: string): Promise<StoredSession[]>
  extend(sessionId: string, endsAt: string, at: string): Promise<void>
  /** False where the person has no such session. */
  end(personId: string, sessionId: string): Promise<boolean>
  endAllBut(personId: string, keptSessionId: string | null): Promise<void>
}

export interface TokenStore {
  /** Newest first. */
  list(): Promise<Token[]>
  find(tokenId: string): Promise<Token | null>
  findBySecret(secretHash: string): Promise<Token | null>
  add(token: Token, secretHash: string, stamp: Stamp): Promise<void>
  revoke(tokenId: string, stamp: Stamp): Promise<Written<Token>>
  noteUse(tokenId: string, at: string): Promise<void>
}

/** What is kept of one door: an account, an address, or both together. */
export interface StoredTries {
  readonly failures: number
  /** No try is taken before. */
  readonly openAt: string
  /** Not kept beyond. */
  readonly forgetAt: string
}

export type KnownTries = ReadonlyMap<string, StoredTries>

export interface TryStore {
  /**
   * Reads and writes in one transaction, so that no two tries at once count as one; null forgets.
   * What is past its time is not given and not kept.
   */
  update(
    keys: readonly string[],
    at: string,
    next: (known: KnownTries) => ReadonlyMap<string, StoredTries | null>,
  ): Promise<void>
}

export interface PeopleStore {
  readonly people: PersonStore
  readonly sessions: SessionStore
  readonly tokens: TokenStore
  readonly tries: TryStore
}
