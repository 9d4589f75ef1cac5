import { isLoopback } from './demo.ts'
import { type SignOn, signOnOf } from './sign-on.ts'

export interface PeopleSettingsOfServer {
  readonly isDemo: boolean
  readonly origin?: string
  readonly secret?: string
  readonly signOn: SignOn | null
  readonly hasPasskeys: boolean
}

/** What the environment says about people. @throws Error naming the variable that cannot be used. */
export function peopleSettingsOf(
  env: Readonly<Record<string, string | undefined>>,
): PeopleSettingsOfServer {
  const { CROSSARM_DEMO, CROSSARM_ORIGIN, CROSSARM_SECRET, CROSSARM_PASSKEYS } = env
  const origin = CROSSARM_ORIGIN ? originOf(CROSSARM_ORIGIN) : undefined
  const signOn = signOnOf(env)
  const hasPasskeys = isOn('CROSSARM_PASSKEYS', CROSSARM_PASSKEYS, false)
  if (origin === undefined && (signOn !== null || hasPasskeys)) {
    const what = hasPasskeys ? 'Passkeys' : 'The utility’s own sign-on'
    throw new Error(`${what} also need CROSSARM_ORIGIN, the address by which people come here.`)
  }
  return {
    isDemo: isOn('CROSSARM_DEMO', CROSSARM_DEMO, true),
    ...(origin && { origin }),
    ...(CROSSARM_SECRET && { secret: CROSSARM_SECRET }),
    signOn,
    hasPasskeys,
  }
}

function isOn(name: string, value: string | undefined, otherwise: boolean): boolean {
  if (!value) return otherwise
  if (value === 'on' || value === 'off') return value === 'on'
  throw new Error(`${name} must be on or off, got "${value}".`)
}

/** Passwords go over it, so beyond this machine it has to be https. */
function originOf(text: string): string {
  const url = URL.canParse(text) ? new URL(text) : null
  const isWhole = url !== null && url.pathname === '/' && url.search === '' && url.hash === ''
  const isSafe =
    url?.protocol === 'https:' || (url?.protocol === 'http:' && isLoopback(url.hostname))
  if (url && isWhole && isSafe) return url.origin
  throw new Error(`CROSSARM_ORIGIN must be as https://crossarm.example, got "${text}".`)
}
