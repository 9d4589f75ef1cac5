import { OAuth2Server } from 'oauth2-mock-server'

export interface Claims {
  readonly sub: string
  readonly email: string
  readonly email_verified: boolean
}

export interface SignOnProvider {
  readonly settings: {
    readonly discovery: string
    readonly client: string
    readonly secret: string
    readonly name: string
  }
  /** Who signs in there next. */
  expect(claims: Claims): void
  stop(): Promise<void>
}

/** A provider of OpenID Connect that runs here and asks nobody anything. */
export async function startSignOnProvider(): Promise<SignOnProvider> {
  let next: Claims = { sub: 'nobody', email: 'nobody@utility.example', email_verified: true }
  const provider = new OAuth2Server()
  await provider.issuer.keys.generate('RS256')
  await provider.start(0, 'localhost')
  provider.service.on('beforeTokenSigning', (token: { payload: Record<string, unknown> }) => {
    Object.assign(token.payload, next, { aud: 'crossarm' })
  })
  provider.service.on('beforeUserinfo', (response: { body: unknown }) => {
    response.body = next
  })
  return {
    settings: {
      discovery: `${provider.issuer.url}/.well-known/openid-configuration`,
      client: 'crossarm',
      secret: 'shared with the provider',
      name: 'Utility sign-on',
    },
    expect: (claims) => {
      next = claims
    },
    stop: () => provider.stop(),
  }
}
