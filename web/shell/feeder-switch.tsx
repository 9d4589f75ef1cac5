import { useFeederList } from '../api/feeders.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'

const ORIGINS = [
  ['demo', 'Demo'],
  ['added', 'Added by you'],
  ['published', 'Published test feeders'],
] as const

const ADD = '+'

/** Which feeder is open; the last choice leads to adding one. */
export function FeederSwitch() {
  const { feeder } = useFeeder()
  const list = useFeederList().data ?? []
  const choose = (value: string) =>
    value === ADD
      ? select({ person: 'planner', view: 'add' })
      : select({ feeder: value, view: null })
  return (
    <label className="top-bar-field">
      <span className="top-bar-label">Feeder</span>
      <select
        className="input top-bar-wide"
        value={feeder.header.id}
        onChange={({ target }) => choose(target.value)}
      >
        {ORIGINS.map(([origin, label]) => {
          const found = list.filter((summary) => summary.origin === origin)
          return found.length === 0 ? null : (
            <optgroup key={origin} label={label}>
              {found.map(({ id, name, nominalKv }) => (
                <option key={id} value={id}>
                  {name}, {nominalKv} kV
                </option>
              ))}
            </optgroup>
          )
        })}
        <option value={ADD}>Add a feeder…</option>
      </select>
    </label>
  )
}
