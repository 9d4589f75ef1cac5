import { IncidentBody, type IncidentRecord } from '#contract/incidents.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { FIND_FIELDS } from './find-fields.ts'
import { membersOf, textOf } from './form-field.ts'
import { placeOfText, textOfPlace } from './place-text.ts'

/** What is wrong with each field and what to do, by its key. */
export type Faults = Readonly<Record<string, string>>
export type Checked<Body> = { readonly body: Body } | { readonly faults: Faults }

const NO_PLACE =
  'Give latitude and longitude, as “43.68077, -107.16813”, or choose a pole or a place on the map.'

/** @param today ISO date offered as the day of the find */
export function newFind(today: string, pole: string | null, at: Position | null): Fields {
  const blank = textOf(FIND_FIELDS, {})
  return { ...blank, pole: pole ?? '', at: at ? textOfPlace(at) : '', foundOn: today }
}

export function fieldsOfFind(find: IncidentRecord): Fields {
  return { ...textOf(FIND_FIELDS, find), at: textOfPlace(find.at) }
}

/** @param placeOfPole where a pole stands, or undefined where the feeder has none of that id */
export function bodyOfFind(
  typed: Fields,
  placeOfPole: (pole: string) => Position | undefined,
): Checked<IncidentBody> {
  const { at: text = '', ...members } = membersOf(FIND_FIELDS, typed)
  const pole = (typed.pole ?? '').trim()
  const ofPole = pole === '' ? undefined : placeOfPole(pole)
  if (pole !== '' && !ofPole) {
    return {
      faults: { pole: `This feeder has no pole ${pole}. Choose another, or leave it empty.` },
    }
  }
  const at = text === '' ? ofPole : placeOfText(String(text))
  const parsed = IncidentBody.safeParse({ ...members, at })
  if (parsed.success) return { body: parsed.data }
  const keys = parsed.error.issues.map(({ path, message }) => [String(path[0]), message] as const)
  return {
    faults: Object.fromEntries(
      keys.map(([key, message]) => [key, key === 'at' ? NO_PLACE : (faultOf(key) ?? message)]),
    ),
  }
}

function faultOf(key: string): string | undefined {
  return FIND_FIELDS.find((field) => field.key === key)?.fault
}
