import type { MiddlewareHandler } from 'hono'

/**
 * Headers that every answer carries (W3C Content Security Policy Level 3; Fetch standard for the
 * cross-origin ones). Styles set from script are allowed by the policy as they are; style
 * elements and attributes in markup are not.
 *
 * @param mapStyleUrl style of a base map from elsewhere; its origin may then be fetched from
 */
export function securityHeaders(mapStyleUrl: string | null): MiddlewareHandler {
  const headers = Object.entries({
    'content-security-policy': contentSecurityPolicy(mapStyleUrl),
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'permissions-policy': 'geolocation=(self), camera=(), microphone=(), payment=(), usb=()',
  })
  return async (context, next) => {
    await next()
    for (const [name, value] of headers) context.res.headers.set(name, value)
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
