/** Told by the name of the species: "golden eagle", "Bald Eagle", "eagle". */
export function isEagle(species: string): boolean {
  return /\beagle\b/i.test(species)
}
