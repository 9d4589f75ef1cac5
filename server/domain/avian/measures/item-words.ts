import type { Protection } from '../../feeder/birds.ts'
import type { MeasureKind } from '../../feeder/measure-kinds.ts'

/** What the words of an item say. */
export interface ItemWords {
  readonly measure: MeasureKind | null
  /** Phases that are named; empty where it is on all of them. */
  readonly phases: ReadonlySet<string>
  /** Equipment that is named, as its parts are labelled; empty where none is. */
  readonly equipment: readonly string[]
}

/** In this order: "arrester cap at the bushing" is a cap. */
const WORDS: readonly (readonly [MeasureKind, RegExp])[] = [
  ['perch deterrent', /deterrent|discourag|spike|triangle/i],
  ['nest platform', /nest(ing)? platform/i],
  ['raised perch', /perch/i],
  ['longer arm', /(longer|10[- ]?ft|wider) (cross)?arm/i],
  ['lowered arm', /lowered (cross)?arm|(cross)?arm lowered/i],
  ['pole-top extension', /extension|raised (pole top|phase)|phase raise/i],
  ['suspended insulators', /suspend/i],
  ['equipment moved to the ground', /moved to the ground|pad[- ]?mount/i],
  ['insulated jumper', /jumper|lead wire|hose/i],
  ['arrester cap', /arrester/i],
  ['cutout cover', /cut-?out/i],
  ['bushing cover', /bushing|terminator/i],
  ['dead-end cover', /dead-?end|strain/i],
  ['ground-wire moulding', /ground[- ]?wire|mou?lding|guy (insulator|link)/i],
  ['conductor cover', /conductor|line (cover|guard)|insulator|phase cover/i],
]

const EQUIPMENT = ['transformer', 'regulator', 'recloser', 'capacitor', 'switch', 'riser'] as const

/** "insulated jumper to transformer, A phase", "cutout cover, 3 phases", "covers on phases A and C". */
export function itemWords({ what, measure }: Pick<Protection, 'what' | 'measure'>): ItemWords {
  return {
    measure: measure ?? WORDS.find(([, words]) => words.test(what))?.[0] ?? null,
    phases: phasesIn(what),
    equipment: EQUIPMENT.filter((name) => what.toLowerCase().includes(name)),
  }
}

/** Letters stand before or after the word: "A phase", "AC phases", "phases A and B", "phase B". */
function phasesIn(what: string): ReadonlySet<string> {
  const before = /\b([ABC]{1,3}|[ABC](?:, ?[ABC])*(?:,? and [ABC]))[- ]phases?\b/.exec(what)?.[1]
  const after = /\b[Pp]hases? ([ABC]{1,3}(?:(?:, ?| and |\/)[ABC])*)\b/.exec(what)?.[1]
  return new Set((before ?? after ?? '').match(/[ABC]/g) ?? [])
}
