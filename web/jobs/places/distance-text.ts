import { feetOfMetres, milesOfMetres } from '#domain/units/length.ts'
import type { Units } from '../../state/address.ts'

/** Feet below this, miles from here on. */
const FEET_UP_TO = 1000

/** "340 ft", "0.42 mi", "12.3 mi", or "104 m", "1.36 km": as many figures as a walk or a drive needs. */
export function distanceText(lengthM: number, units: Units): string {
  if (units === 'metric') {
    return lengthM < 1000 ? `${Math.round(lengthM)} m` : `${shortened(lengthM / 1000)} km`
  }
  const feet = Math.round(feetOfMetres(lengthM))
  return feet < FEET_UP_TO ? `${feet} ft` : `${shortened(milesOfMetres(lengthM))} mi`
}

const shortened = (value: number): string => value.toFixed(value < 10 ? 2 : 1)
