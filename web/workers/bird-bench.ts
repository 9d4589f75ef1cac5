import { itemsByPole } from '#domain/avian/assessment/assess-feeder.ts'
import { assessPole } from '#domain/avian/assessment/assess-pole.ts'
import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Exposure, RankedPole } from '#domain/avian/exposure/exposure.ts'
import { exposureOfPoles } from '#domain/avian/exposure/exposure-of-poles.ts'
import { rankPoles } from '#domain/avian/exposure/rank-poles.ts'
import { rankSensitivity } from '#domain/avian/exposure/rank-sensitivity.ts'
import type { Surroundings } from '#domain/avian/exposure/surroundings.ts'
import { exposureWeights } from '#domain/avian/exposure/weights.ts'
import { cheapestSet } from '#domain/avian/measures/cheapest-measures.ts'
import type { MeasureSet } from '#domain/avian/measures/measure.ts'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '#domain/avian/pole-top/pole-top.ts'
import type { PoleTopChoice } from '#domain/avian/pole-top/pole-top-choice.ts'
import { planProgramme } from '#domain/avian/programme/plan-programme.ts'
import type { Programme, ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { TellProgress } from './answer-calls.ts'

/** A feeder with the nests and finds of the record, and the land around it. */
export interface BirdPlace {
  readonly feeder: Feeder
  readonly surroundings: Surroundings | undefined
}

/** What people set down about the poles of a feeder. */
export interface BirdMarks {
  readonly choices: readonly PoleTopChoice[]
  readonly protections: readonly Protection[]
  readonly settings: BirdSettings | undefined
}

export interface Assessed {
  /** All poles are among `assessments`; else only those that came out anew since the last answer. */
  readonly isWhole: boolean
  readonly assessments: readonly PoleAssessment[]
  readonly exposures: readonly Exposure[]
  readonly ranked: readonly RankedPole[]
}

/** The same trials each time, so that the list does not change by looking at it. */
const SEED = 1
/** Poles between two reports. */
const STEP = 25

interface Kept<Value> {
  readonly key: string
  readonly value: Value
}

/**
 * Keeps what was computed of a feeder, and computes again only the poles whose record has changed:
 * each is known by the text of all that bears on it.
 */
export class BirdBench {
  #place: BirdPlace | null = null
  #assessments = new Map<string, Kept<PoleAssessment>>()
  #sets = new Map<string, Kept<MeasureSet | null>>()
  #exposures: Kept<readonly Exposure[]> | null = null
  /** Poles that were assessed anew and not told yet. */
  #untold = new Set<string>()

  hold(place: BirdPlace): void {
    if (this.#place?.feeder.header.id !== place.feeder.header.id) {
      this.#assessments.clear()
      this.#sets.clear()
      this.#untold.clear()
    }
    this.#exposures = null
    this.#place = place
  }

  assess(marks: BirdMarks, tell: TellProgress): Assessed {
    const all = this.#assess(marks, tell)
    const isWhole = this.#untold.size >= all.length
    const assessments = all.filter(({ poleId }) => this.#untold.has(poleId))
    this.#untold.clear()
    const exposures = this.#exposuresOf(marks)
    return { isWhole, assessments, exposures, ranked: this.#rank(all, exposures, marks) }
  }

  plan(marks: BirdMarks, request: ProgrammeRequest, tell: TellProgress): Programme {
    const assessments = this.#assess(marks, tell)
    const exposures = this.#exposuresOf(marks)
    return planProgramme(
      {
        feeder: this.#held().feeder,
        assessments,
        ranked: rankPoles(assessments, exposures),
        cheapest: this.#cheapest(marks, tell),
        settings: marks.settings,
      },
      request,
      (done, of, phase) => tell({ what: `Working out ${phase}`, done, of }),
    )
  }

  #held(): BirdPlace {
    if (!this.#place) throw new Error('Expected a feeder to be held by the worker.')
    return this.#place
  }

  #assess(marks: BirdMarks, tell: TellProgress): PoleAssessment[] {
    const shared = sizesKey(marks.settings)
    return this.#eachPole(marks, 'Assessing poles', tell, (site, items) => {
      const { id } = site.pole
      const key = shared + JSON.stringify([site, items])
      const kept = this.#assessments.get(id)
      if (kept?.key === key) return kept.value
      const value = assessPole(site, items, marks.settings)
      this.#assessments.set(id, { key, value })
      this.#untold.add(id)
      return value
    })
  }

  #cheapest(marks: BirdMarks, tell: TellProgress): Map<string, MeasureSet> {
    const prices = JSON.stringify(marks.settings?.measures ?? [])
    const sets = new Map<string, MeasureSet>()
    this.#eachPole(marks, 'Finding the cheapest measures', tell, (site, items) => {
      const { id } = site.pole
      const key = prices + (this.#assessments.get(id)?.key ?? '')
      const kept = this.#sets.get(id)
      const value = kept?.key === key ? kept.value : cheapestSet(site, items, marks.settings)
      this.#sets.set(id, { key, value })
      if (value) sets.set(id, value)
    })
    return sets
  }

  #eachPole<Value>(
    { choices, protections }: BirdMarks,
    what: string,
    tell: TellProgress,
    run: (site: PoleSite, items: readonly Protection[]) => Value,
  ): Value[] {
    const sites = poleSites(this.#held().feeder, choices)
    const items = itemsByPole(protections)
    return sites.map((site, index) => {
      if (index % STEP === 0) tell({ what, done: index, of: sites.length })
      return run(site, items.get(site.pole.id) ?? [])
    })
  }

  #exposuresOf({ settings }: BirdMarks): readonly Exposure[] {
    const key = JSON.stringify(exposureWeights(settings))
    if (this.#exposures?.key !== key) {
      const { feeder, surroundings } = this.#held()
      this.#exposures = { key, value: exposureOfPoles(feeder, settings, surroundings) }
    }
    return this.#exposures.value
  }

  #rank(
    assessments: readonly PoleAssessment[],
    exposures: readonly Exposure[],
    { settings }: BirdMarks,
  ): RankedPole[] {
    const ranked = rankPoles(assessments, exposures)
    return rankSensitivity(ranked, exposures, exposureWeights(settings), { seed: SEED })
  }
}

/** Of the settings only what an assessment goes by, so that another weight costs no reassessment. */
function sizesKey(settings: BirdSettings | undefined): string {
  if (!settings) return ''
  const { guidance, designSpeciesId, countWetFeathers, species } = settings
  return JSON.stringify([guidance, designSpeciesId, countWetFeathers, species])
}
