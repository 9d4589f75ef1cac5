import { isIP } from 'node:net'
import type { DemoRole, Me } from '#contract/account.ts'
import { Refusal } from '../services/refusal.ts'
import type { Asking, WithCookies } from './asking.ts'
import { beginSession } from './begin-session.ts'
import { demoPersonId } from './demo-people.ts'
import type { PeoplePorts } from './people-ports.ts'

/** Set by proxies: whoever comes through one may be anywhere. */
const PROXY_HEADERS = ['x-forwarded-for', 'x-forwarded-host', 'forwarded', 'via']

/**
 * Signs in as one of the people of the demo. Only for who sits at the machine itself: the server
 * listens there alone, and what a proxy hands on is refused.
 *
 * @throws Refusal `not-found`
 */
export async function enterDemo(
  ports: PeoplePorts,
  role: DemoRole,
  asking: Asking,
): Promise<WithCookies<Me>> {
  const person = ports.isDemo ? await ports.store.people.find(demoPersonId(role)) : null
  if (!person) throw new Refusal('not-found', 'This server has no demo. Sign in instead.')
  const isHandedOn = PROXY_HEADERS.some((name) => asking.headers.has(name))
  if (isHandedOn || !isLoopback(new URL(asking.origin).hostname)) {
    throw new Refusal('not-found', 'The demo is entered only on the machine that runs the server.')
  }
  return beginSession(ports, person, asking)
}

/** @param host a name or an address, IPv6 with or without its brackets */
export function isLoopback(host: string): boolean {
  const name = host.replace(/^\[|\]$/g, '').toLowerCase()
  if (name === 'localhost' || name === '::1') return true
  return isIP(name) === 4 && name.startsWith('127.')
}

/**
 * The demo asks for no password, so it is open to this machine alone.
 *
 * @throws Error saying how to go on where the server is to be reached from elsewhere
 */
export function refuseOpenDemo(host: string, origin: string | undefined): void {
  const isOpen = !isLoopback(host) || (origin !== undefined && !isLoopback(hostOf(origin)))
  if (!isOpen) return
  throw new Error(
    [
      `The demo needs no password, so it is served to this machine alone, not at ${origin ?? host}.`,
      'Set CROSSARM_DEMO=off to serve others. The first administrator then comes in by the link',
      'that the server prints when it starts, or by one from',
      '  crossarm people add --name "Name" --email name@utility.example --role administrator',
    ].join('\n'),
  )
}

function hostOf(origin: string): string {
  return URL.canParse(origin) ? new URL(origin).hostname : origin
}
