import type { Regulator } from './equipment.ts'

/** A bank as people know it, by its name and pole: "Anvil regulators, pole S-144". */
export function bankInWords({ name, pole }: Pick<Regulator, 'name' | 'pole'>): string {
  if (!name?.trim()) return `Regulator bank, pole ${pole}`
  return name.includes(pole) ? name : `${name}, pole ${pole}`
}
