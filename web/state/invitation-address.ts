const PATH = '/invitation'

/**
 * Secret of the invitation that the page was opened with, or null. It stands behind the "#", which
 * a browser never sends, so that no log of a server or a proxy holds it.
 */
export function invitationOfAddress(): string | null {
  const { pathname, hash } = window.location
  return pathname === PATH && hash.length > 1 ? hash.slice(1) : null
}

/** Takes the secret out of the address once it is used up or given up. */
export function leaveInvitation(): void {
  window.history.replaceState(null, '', '/')
}
