import { feetOfMetres, milesOfMetres } from '#domain/units/length.ts'
import type { Units } from './address.ts'

/** A figure and its unit, as the person reads them. */
export interface Shown {
  readonly value: string
  readonly unit: string
}

export function inWords({ value, unit }: Shown): string {
  return `${value} ${unit}`
}

/** "109.6 V" on the 120 V base. */
export function volts(volts120: number): Shown {
  return { value: volts120.toFixed(1), unit: 'V' }
}

/** Way along the line: miles or kilometres with one decimal. */
export function distance(distanceM: number, units: Units): Shown {
  return units === 'us'
    ? { value: milesOfMetres(distanceM).toFixed(1), unit: 'mi' }
    : { value: (distanceM / 1000).toFixed(1), unit: 'km' }
}

/** Short length, as of a span or to a road: whole feet or metres. */
export function length(lengthM: number, units: Units): Shown {
  return units === 'us'
    ? { value: thousands(feetOfMetres(lengthM)), unit: 'ft' }
    : { value: thousands(lengthM), unit: 'm' }
}

export function usd(amount: number): string {
  const sign = amount < 0 ? '−' : ''
  return `${sign}$${thousands(Math.abs(amount))}`
}

export function thousands(amount: number): string {
  return Math.round(amount).toLocaleString('en-US')
}

/** "1 customer", "41 customers". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${thousands(count)} ${count === 1 ? one : many}`
}

/** "A, B and C". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('')
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** Tap position in words: "6 raise", "neutral", "3 lower". */
export function tapWords(tap: number): string {
  if (tap === 0) return 'neutral'
  return `${Math.abs(tap)} ${tap > 0 ? 'raise' : 'lower'}`
}
