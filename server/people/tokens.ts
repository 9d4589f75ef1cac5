import type { Actor } from '#contract/actor.ts'
import type { MakeTokenBody, Token, TokenMade } from '#contract/people.ts'
import { mayDo } from '#contract/rights.ts'
import { Refusal } from '../services/refusal.ts'
import { settleWritten } from '../services/settle-written.ts'
import type { PeoplePorts } from './people-ports.ts'
import { hashOfSecret, newSecret, TOKEN_PREFIX } from './secrets.ts'

const DAY_MS = 24 * 3_600_000

/** The secret is told this once. @throws Refusal `malformed-request` for a right that the role lacks */
export async function makeToken(
  { store, clock, newId }: PeoplePorts,
  actor: Actor,
  { name, role, rights, days }: MakeTokenBody,
): Promise<TokenMade> {
  const lacking = rights.filter((right) => !mayDo({ role }, right))
  if (lacking.length > 0) {
    throw new Refusal('malformed-request', `The role ${role} may not ${lacking.join(', nor ')}.`, {
      faults: lacking.map((right) => ({
        at: `body.rights.${rights.indexOf(right)}`,
        what: `is no right of the role ${role}`,
      })),
    })
  }
  const madeAt = clock()
  const endsAt = new Date(Date.parse(madeAt) + days * DAY_MS).toISOString()
  const secret = TOKEN_PREFIX + newSecret()
  const distinct = [...new Set(rights)]
  const made = { id: newId(), name, role, rights: distinct, madeBy: actor, madeAt, endsAt }
  const token: Token = { ...made, revokedAt: null, lastUsedAt: null }
  await store.tokens.add(token, hashOfSecret(secret), { actor, at: madeAt })
  return { token, secret }
}

/** @throws Refusal `not-found` or `wrong-state` */
export async function revokeToken(
  { store, clock }: PeoplePorts,
  actor: Actor,
  tokenId: string,
): Promise<Token> {
  return settleWritten(await store.tokens.revoke(tokenId, { actor, at: clock() }), {
    missing: `There is no token "${tokenId}".`,
    wrongState: 'The token is revoked already.',
  })
}
