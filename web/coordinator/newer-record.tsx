import type { ProtectionRecord } from '#contract/protections.ts'
import { Button } from '../ui/button.tsx'
import type { ItemDraft } from './item-draft.ts'
import { momentInWords } from './moment-in-words.ts'

interface Props {
  readonly newer: ProtectionRecord
  readonly draft: ItemDraft
  readonly onKeepMine: () => void
  readonly onTakeTheirs: () => void
}

const FIELDS = [
  ['kind', 'Kind'],
  ['what', 'What'],
  ['state', 'State'],
  ['on', 'Date'],
  ['note', 'Note'],
] as const

/** Both versions side by side after someone else saved first; the person decides. */
export function NewerRecord({ newer, draft, onKeepMine, onTakeTheirs }: Props) {
  return (
    <div className="newer-record stack" role="alert">
      <p>
        <strong>Someone saved this item while you were typing.</strong> {newer.changedBy.id} (
        {newer.changedBy.role}), {momentInWords(newer.changedAt)}. Nothing of yours is lost; choose
        which to keep.
      </p>
      <table className="separation-table">
        <thead>
          <tr>
            <th scope="col">Field</th>
            <th scope="col">In the record</th>
            <th scope="col">Yours</th>
          </tr>
        </thead>
        <tbody>
          {FIELDS.map(([field, name]) => {
            const theirs = newer[field] ?? ''
            const isDifferent = theirs !== draft[field]
            return (
              <tr key={field} className={isDifferent ? 'is-different' : undefined}>
                <th scope="row">
                  {name}
                  {isDifferent && ' (differs)'}
                </th>
                <td>{theirs || '–'}</td>
                <td>{draft[field] || '–'}</td>
              </tr>
            )
          })}
        </tbody>
      </table>
      <div className="row">
        <Button onClick={onKeepMine}>Save mine over it</Button>
        <Button onClick={onTakeTheirs}>Keep the record, drop mine</Button>
      </div>
    </div>
  )
}
