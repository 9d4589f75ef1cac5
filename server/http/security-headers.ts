import type { MiddlewareHandler } from 'hono'

interface HeaderChoices {
  /** Style of a base map from elsewhere; its origin may then be fetched from. */
  readonly mapStyleUrl: string | null
  readonly isEncrypted: boolean
}

const POLICY = 'content-security-policy'

/** A year, the least that browsers' lists of https-only names take. */
const ONLY_ENCRYPTED = 'max-age=31536000'

/**
 * Headers that every answer carries (W3C Content Security Policy Level 3; Fetch standard for the
 * cross-origin ones; RFC 6797 for the transport). Styles set from script are allowed by the policy
 * as they are; style elements and attributes in markup are not. An answer that has a policy of
 * its own, as a file has, keeps that.
 */
export function securityHeaders({ mapStyleUrl, isEncrypted }: HeaderChoices): MiddlewareHandler {
  const policy = contentSecurityPolicy(mapStyleUrl)
  const headers = Object.entries({
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'permissions-policy': 'geolocation=(self), camera=(self), microphone=(), payment=(), usb=()',
    ...(isEncrypted && { 'strict-transport-security': ONLY_ENCRYPTED }),
  })
  return async (context, next) => {
    await next()
    const answer = context.res.headers
    for (const [name, value] of headers) answer.set(name, value)
    if (!answer.has(POLICY)) answer.set(POLICY, policy)
  }
}

function contentSecurityPolicy(mapStyleUrl: string | null): string {
  const mapOrigin = mapStyleUrl === null ? '' : ` ${new URL(mapStyleUrl).origin}`
  return [
    "default-src 'none'",
    "script-src 'self'",
    "worker-src 'self'",
    "style-src 'self'",
    `img-src 'self' data: blob:${mapOrigin}`,
    `connect-src 'self'${mapOrigin}`,
    "font-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ')
}
