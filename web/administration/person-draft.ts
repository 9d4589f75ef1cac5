import { z } from 'zod'
import { Role } from '#contract/actor.ts'
import type { ChangePersonBody, Person } from '#contract/people.ts'
import type { Fields } from '../record/merge-fields.ts'
import type { RecordField } from '../record/record-fields.ts'
import { rolesInWords } from '../record/roles-in-words.ts'

/** Name and roles as typed, beside the version that they began from. */
export const PersonDraft = z.object({
  name: z.string(),
  roles: z.array(Role),
  base: z.object({ name: z.string(), roles: z.array(Role), version: z.number() }),
})
export type PersonDraft = z.infer<typeof PersonDraft>

export function draftOfPerson({ name, roles, version }: Person): PersonDraft {
  return { name, roles, base: { name, roles, version } }
}

type Named = Pick<PersonDraft, 'name' | 'roles'>

const Roles = z.array(Role)
const rolesOfText = (text: string) => Roles.parse(text === '' ? [] : text.split(','))

/** For the choice between two versions, which knows texts only. */
export function fieldsOf({ name, roles }: Named): Fields {
  return { name, roles: roles.join(',') }
}

export function namedOfFields({ name = '', roles = '' }: Fields): Named {
  return { name, roles: rolesOfText(roles) }
}

export const DRAFT_FIELDS: readonly RecordField[] = [
  { key: 'name', label: 'Name' },
  {
    key: 'roles',
    label: 'Roles',
    inWords: (value) => rolesInWords(rolesOfText(String(value))),
  },
]

/** What is sent; the state of the account stays as it is. */
export function bodyOf({ name, roles }: Named, { state, version }: Person): ChangePersonBody {
  return { name: name.trim(), roles: [...roles], state, version }
}
