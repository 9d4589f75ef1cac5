/** The utility's own sign-on, by OpenID Connect Discovery 1.0. */
export interface SignOn {
  readonly discovery: string
  readonly client: string
  readonly secret: string
  /** As it is called on the button. */
  readonly name: string
}

/** @throws Error naming the variable that is missing where only some of them are set. */
export function signOnOf(env: Readonly<Record<string, string | undefined>>): SignOn | null {
  const parts = {
    CROSSARM_SIGN_ON_DISCOVERY: env.CROSSARM_SIGN_ON_DISCOVERY,
    CROSSARM_SIGN_ON_CLIENT: env.CROSSARM_SIGN_ON_CLIENT,
    CROSSARM_SIGN_ON_SECRET: env.CROSSARM_SIGN_ON_SECRET,
  }
  const missing = Object.entries(parts).filter(([, value]) => !value)
  if (missing.length === 3) return null
  if (missing.length > 0) {
    const names = missing.map(([name]) => name).join(' and ')
    throw new Error(`The utility’s own sign-on also needs ${names}.`)
  }
  const discovery = parts.CROSSARM_SIGN_ON_DISCOVERY ?? ''
  if (!URL.canParse(discovery)) {
    throw new Error(`CROSSARM_SIGN_ON_DISCOVERY must be a full address, got "${discovery}".`)
  }
  return {
    discovery,
    client: parts.CROSSARM_SIGN_ON_CLIENT ?? '',
    secret: parts.CROSSARM_SIGN_ON_SECRET ?? '',
    name: env.CROSSARM_SIGN_ON_NAME || 'your utility’s sign-on',
  }
}
