import { M_PER_IN } from '#domain/units/length.ts'
import type { BirdSettings } from '../bird-settings.ts'
import { EAGLE_GUIDANCE } from '../eagle-guidance.ts'
import type { BirdSize, BirdSpecies, SourcedM } from './bird-species.ts'

/** The species that decides unless the utility chooses another one. */
const DESIGN_SPECIES_ID = 'eagle'

/**
 * Share of the wingspan from wrist to wrist, as the figure for eagles was derived: of 90 in, 18 in of
 * primary feathers on either side leave 54.
 */
const WRIST_SHARE = (90 - 2 * 18) / 90

const WRIST_SOURCE =
  'Scaled from the largest wingspan as the figure for eagles was derived: of 90 in, 18 in of feathers on either side leave 54. Measured breadths of species stand in APLIC 2006, chapter 4, and in Dwyer and others 2015; enter them in the settings.'
const HEIGHT_SOURCE =
  'The length from bill to tail stands in for the height from head to foot, which is a little less for most birds.'
const SIZE_SOURCE =
  'Largest of the usual range, from memory; sources on the web differ by some inches.'

/** Largest wingspan and length from bill to tail, inches. */
const LARGEST_IN = [
  ['osprey', 'osprey', 71, 23],
  ['turkey-vulture', 'turkey vulture', 72, 32],
  ['red-tailed-hawk', 'red-tailed hawk', 56, 26],
  ['ferruginous-hawk', 'ferruginous hawk', 60, 27],
  ['swainsons-hawk', 'Swainson’s hawk', 54, 22],
  ['harriss-hawk', 'Harris’s hawk', 47, 23],
  ['great-horned-owl', 'great horned owl', 57, 25],
  ['barn-owl', 'barn owl', 49, 16],
  ['prairie-falcon', 'prairie falcon', 43, 18],
  ['common-raven', 'common raven', 51, 27],
  ['american-kestrel', 'American kestrel', 24, 12],
] as const

/**
 * Species with the sizes that they are reckoned with: as shipped, or as the utility has entered them
 * with a source of its own. The eagle first, then as listed.
 */
export function birdSpecies(settings?: BirdSettings): readonly BirdSpecies[] {
  return [eagle(settings), ...LARGEST_IN.map(smallerSpecies)].map((species) =>
    asEntered(species, settings),
  )
}

/** The species whose pairs decide on the state of a pole; the eagle where the chosen one is not listed. */
export function designSpecies(settings?: BirdSettings): BirdSpecies {
  const id = settings?.designSpeciesId ?? DESIGN_SPECIES_ID
  const species = birdSpecies(settings)
  const chosen = species.find((each) => each.id === id) ?? species[0]
  if (!chosen) throw new Error('Expected at least one species, got none.')
  return chosen
}

/** Wet feathers conduct: then the whole wingspan and the whole length count, if they are more. */
export function sizeOf(species: BirdSpecies, settings?: BirdSettings): BirdSize {
  const dry = { breadthM: species.breadth.valueM, heightM: species.height.valueM }
  if (!settings?.countWetFeathers) return dry
  return {
    breadthM: Math.max(dry.breadthM, species.wingspan.valueM),
    heightM: Math.max(dry.heightM, species.bodyLength.valueM),
  }
}

function eagle(settings: BirdSettings | undefined): BirdSpecies {
  const { citation, sureness, horizontalM, verticalM } = EAGLE_GUIDANCE
  const own = settings?.guidance
  const guidance = (valueM: number): SourcedM => ({
    valueM,
    sureness,
    source: own ? setByUtility(own.citation) : citation,
  })
  return {
    id: DESIGN_SPECIES_ID,
    name: 'eagle',
    isEagle: true,
    breadth: guidance(own?.horizontalM ?? horizontalM),
    height: guidance(own?.verticalM ?? verticalM),
    wingspan: remembered(92),
    bodyLength: remembered(40),
    note: 'Golden and bald eagles, by the guidance that poles are held against: breadth with a margin, height rounded up.',
  }
}

function smallerSpecies([
  id,
  name,
  wingspanIn,
  lengthIn,
]: (typeof LARGEST_IN)[number]): BirdSpecies {
  return {
    id,
    name,
    isEagle: false,
    breadth: {
      valueM: wingspanIn * WRIST_SHARE * M_PER_IN,
      sureness: 'assumption',
      source: WRIST_SOURCE,
    },
    height: { valueM: lengthIn * M_PER_IN, sureness: 'assumption', source: HEIGHT_SOURCE },
    wingspan: remembered(wingspanIn),
    bodyLength: remembered(lengthIn),
    note: 'Breadth and height are assumptions until measured ones are entered.',
  }
}

function remembered(inches: number): SourcedM {
  return { valueM: inches * M_PER_IN, sureness: 'from memory', source: SIZE_SOURCE }
}

/** How sure it is stays as it was: that a source was named does not show that it says so. */
function setByUtility(source: string): string {
  return `Set by the utility: ${source}`
}

function asEntered(species: BirdSpecies, settings: BirdSettings | undefined): BirdSpecies {
  const entered = settings?.species.find(({ id }) => id === species.id)
  if (!entered) return species
  const replaced = (shipped: SourcedM, valueM: number | undefined): SourcedM =>
    valueM === undefined ? shipped : { ...shipped, valueM, source: setByUtility(entered.source) }
  return {
    ...species,
    breadth: replaced(species.breadth, entered.breadthM),
    height: replaced(species.height, entered.heightM),
  }
}
