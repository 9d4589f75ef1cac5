import { Field } from '../ui/field.tsx'
import type { HeadFields } from './job-head-draft.ts'

interface Props {
  readonly fields: HeadFields
  readonly onType: (change: Partial<HeadFields>) => void
}

/** What people say of a job beside its plan. */
export function JobHeadFields({ fields: { title, note, dueOn, crew }, onType }: Props) {
  return (
    <>
      <Field
        label="Title"
        fault={title.trim() === '' ? 'Give it a title that the crew knows it by.' : null}
      >
        {(control) => (
          <input
            {...control}
            className="input"
            value={title}
            maxLength={120}
            onChange={({ target }) => onType({ title: target.value })}
          />
        )}
      </Field>
      <div className="job-fields">
        <Field label="Due on" hint="Left empty: no due date.">
          {(control) => (
            <input
              {...control}
              className="input"
              type="date"
              value={dueOn}
              onChange={({ target }) => onType({ dueOn: target.value })}
            />
          )}
        </Field>
        <Field label="Crew" hint="In your own words: north truck.">
          {(control) => (
            <input
              {...control}
              className="input"
              value={crew}
              maxLength={120}
              onChange={({ target }) => onType({ crew: target.value })}
            />
          )}
        </Field>
      </div>
      <Field label="Note to the crew">
        {(control) => (
          <textarea
            {...control}
            className="input"
            rows={3}
            maxLength={4000}
            value={note}
            onChange={({ target }) => onType({ note: target.value })}
          />
        )}
      </Field>
    </>
  )
}
