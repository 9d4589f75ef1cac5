import { useRef } from 'react'

/** The record whose form stands open although someone else deleted it meanwhile. */
export function useOrphan<Kept extends { readonly id: string }>(
  listed: readonly Kept[],
  edited: string | null,
): Kept | null {
  const last = useRef<Kept | null>(null)
  const standing = listed.find(({ id }) => id === edited)
  if (standing) last.current = standing
  if (edited === null || standing) return null
  return last.current?.id === edited ? last.current : null
}
