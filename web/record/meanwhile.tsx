import { useState } from 'react'
import type { Thing } from '../api/history.ts'
import { useNewestChange } from '../state/live.ts'
import { DeletedMeanwhile } from './deleted-meanwhile.tsx'
import type { Fields } from './merge-fields.ts'
import { NewerNote } from './newer-note.tsx'
import type { RecordField } from './record-fields.ts'
import { SideBySide } from './side-by-side.tsx'

/** A thing as it stands in the record, as far as the page knows. */
export interface Standing {
  readonly version: number
  readonly fields: Fields
  readonly isDeleted: boolean
}

interface Props {
  readonly thing: Thing
  /** "this item": as it stands in a sentence. */
  readonly what: string
  readonly fields: readonly RecordField[]
  /** Version that the form began from, and what it held. */
  readonly typedOn: number
  readonly base: Fields | null
  readonly mine: Fields
  /** The newest that is known: from the list, or from the refusal to save. */
  readonly standing: Standing
  /** Saving was refused because of it: the person has to choose. */
  readonly isRefused: boolean
  readonly isSaving: boolean
  /** Saves what was chosen, on top of this version. */
  readonly onSave: (chosen: Fields, version: number) => void
  readonly onDropMine: () => void
  /** Restores a deleted thing from this version, so that the form can go on. */
  readonly onRestore?: (version: number) => void
}

/**
 * What an open form says when the thing was changed by someone else: first a quiet note, then both
 * versions side by side, so that nothing that was typed is lost and nothing is overwritten unseen.
 */
export function Meanwhile(props: Props) {
  const { thing, what, fields, typedOn, base, mine, standing, isRefused, isSaving } = props
  const { onSave, onDropMine, onRestore } = props
  const [isLooking, setIsLooking] = useState(false)
  const change = useNewestChange(thing.subject, thing.subjectId)
  const told = change && change.version > Math.max(typedOn, standing.version) ? change : null
  const isNewer = standing.version > typedOn
  const deletedAs =
    told?.what === 'deleted' ? told.version : standing.isDeleted ? standing.version : null
  if (deletedAs !== null && onRestore) {
    return (
      <DeletedMeanwhile
        thing={thing}
        what={what}
        version={deletedAs}
        onRestore={onRestore}
        onDropMine={onDropMine}
      />
    )
  }
  if (!isNewer) return told && <NewerNote change={told} />
  if (!isRefused && !isLooking) {
    return (
      <NewerNote
        change={change ?? { actorId: null, at: null, what: 'changed' }}
        onLook={() => setIsLooking(true)}
      />
    )
  }
  return (
    <SideBySide
      thing={thing}
      version={standing.version}
      what={what}
      fields={fields}
      base={base}
      mine={mine}
      theirs={standing.fields}
      isSaving={isSaving}
      onSave={(chosen) => {
        setIsLooking(false)
        onSave(chosen, standing.version)
      }}
      onDropMine={onDropMine}
    />
  )
}
