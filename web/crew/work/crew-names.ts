import { z } from 'zod'
import { keptOnDevice } from './kept-on-device.ts'

const MOST_NAMES = 12

const names = keptOnDevice('crew-names', z.array(z.string()))
const KEY = 'all'

/** Names that signed on this device, the one that was added last at the end. */
export function useCrewNames(): readonly string[] {
  return names.use(KEY) ?? []
}

/** A name that is known stays in its place, so that its button does not move under the thumb. */
export function rememberName(name: string): void {
  const known = names.get(KEY) ?? []
  if (!known.includes(name)) names.keep(KEY, withName(known, name))
}

export function forgetName(name: string): void {
  names.keep(
    KEY,
    (names.get(KEY) ?? []).filter((other) => other !== name),
  )
}

/** The names with one more; the same name in another spelling of its letters stays one. */
export function withName(known: readonly string[], name: string): string[] {
  const trimmed = name.trim().replace(/\s+/g, ' ')
  if (trimmed === '') return [...known]
  const others = known.filter((other) => other.toLowerCase() !== trimmed.toLowerCase())
  return [...others, trimmed].slice(-MOST_NAMES)
}
