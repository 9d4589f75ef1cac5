import { NestBody, type NestRecord } from '#contract/nests.ts'
import type { BufferRule } from '#domain/avian/bird-settings.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { Checked } from './find-body.ts'
import { membersOf, textOf } from './form-field.ts'
import { NEST_FIELDS } from './nest-fields.ts'
import { seasonsOfText, textOfSeasons } from './nest-seasons.ts'
import { placeOfText, textOfPlace } from './place-text.ts'

const NO_PLACE =
  'Give latitude and longitude, as “43.68077, -107.16813”, or choose a pole or a place on the map.'

export function newNest(today: string, pole: string | null, at: Position | null): Fields {
  return {
    ...textOf(NEST_FIELDS, {}),
    pole: pole ?? '',
    at: at ? textOfPlace(at) : '',
    status: 'unknown',
    lastSeen: today,
    seasons: '[]',
  }
}

export function fieldsOfNest(nest: NestRecord): Fields {
  return {
    ...textOf(NEST_FIELDS, nest),
    at: textOfPlace(nest.at),
    seasons: textOfSeasons(nest.seasons),
  }
}

/** Buffer, season and source of a rule, as the form holds them. */
export function fieldsOfRule({ distanceM, from, to }: BufferRule, source: string): Fields {
  return {
    bufferM: String(Math.round(distanceM)),
    seasonFrom: from,
    seasonTo: to,
    citation: source,
  }
}

export function bodyOfNest(
  typed: Fields,
  placeOfPole: (pole: string) => Position | undefined,
): Checked<NestBody> {
  const { at: text = '', seasons, ...members } = membersOf(NEST_FIELDS, typed)
  const pole = (typed.pole ?? '').trim()
  const ofPole = pole === '' ? undefined : placeOfPole(pole)
  if (pole !== '' && !ofPole) {
    return {
      faults: { pole: `This feeder has no pole ${pole}. Choose another, or leave it empty.` },
    }
  }
  const at = text === '' ? ofPole : placeOfText(String(text))
  const parsed = NestBody.safeParse({
    ...members,
    at,
    seasons: seasonsOfText(String(seasons ?? '')),
  })
  if (parsed.success) return { body: parsed.data }
  return {
    faults: Object.fromEntries(
      parsed.error.issues.map(({ path, message }) => {
        const key = String(path[0])
        const fault = NEST_FIELDS.find((field) => field.key === key)?.fault
        return [key, key === 'at' ? NO_PLACE : (fault ?? message)]
      }),
    ),
  }
}
