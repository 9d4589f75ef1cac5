import type { Equipment } from './equipment.ts'

/** A regulator bank whose units hang off the line while the line runs past them. */
export function isBypassed(item: Equipment): boolean {
  return item.kind === 'regulator' && item.state === 'bypassed'
}
