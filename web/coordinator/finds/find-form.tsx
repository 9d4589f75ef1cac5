import { useMemo } from 'react'
import { type IncidentBody, IncidentRecord } from '#contract/incidents.ts'
import { birdSpecies } from '#domain/avian/species/shipped-species.ts'
import { useBirdSettings } from '../../api/bird-settings.ts'
import { useIncidentChanges } from '../../api/incidents.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { FieldFolds } from './field-folds.tsx'
import { bodyOfFind, fieldsOfFind, newFind } from './find-body.ts'
import { FIND_FIELDS, FIND_FOLDS } from './find-fields.ts'
import { PlaceChoice } from './place-choice.tsx'
import { ProposedDates } from './proposed-dates.tsx'
import { RecordForm } from './record-form.tsx'
import { SuspectedPair } from './suspected-pair.tsx'
import { useRecordSave } from './use-record-save.ts'

interface Props {
  /** Null to record a new one. */
  readonly find: IncidentRecord | null
  readonly onSaved: (find: IncidentRecord) => void
  readonly onDone: () => void
}

/** Records or edits a find: a dead or hurt bird, the evidence, and what follows. */
export function FindForm({ find, onSaved, onDone }: Props) {
  const { feeder, poleById } = useFeeder()
  const { pole } = useSelection()
  const feederId = feeder.header.id
  const changes = useIncidentChanges(feederId)
  const { data: settings } = useBirdSettings()
  const folds = useFoldsWithSpecies()
  const saving = useRecordSave<IncidentBody, IncidentRecord>({
    changes,
    id: find?.id ?? null,
    schema: IncidentRecord,
    check: (typed) => bodyOfFind(typed, (id) => poleById.get(id)?.at),
    onSaved: (kept) => {
      onDone()
      onSaved(kept)
    },
  })
  const begin = () =>
    newFind(localToday(), pole, pole === null ? null : (poleById.get(pole)?.at ?? null))
  return (
    <RecordForm
      title={find ? `Edit the find: ${find.species}, ${find.foundOn}` : 'Record a find'}
      what="this find"
      draftKey={`find~${feederId}~${find?.id ?? 'new'}`}
      begin={begin}
      record={find}
      thing={find && { subject: 'incident', subjectId: find.id, feederId }}
      fields={FIND_FIELDS}
      fieldsOf={fieldsOfFind}
      saving={saving}
      onRestore={(version, goOn) =>
        find && changes.restore.mutate({ id: find.id, version }, { onSuccess: goOn })
      }
      onDone={onDone}
    >
      {(typed, faults, onType) => (
        <>
          <PlaceChoice typed={typed} faults={faults} onType={onType} />
          <FieldFolds
            folds={folds}
            typed={typed}
            faults={faults}
            onType={onType}
            heads={{
              'The pole then': (
                <SuspectedPair typed={typed} settings={settings?.settings} onType={onType} />
              ),
              'What was done, and what is due': (
                <ProposedDates typed={typed} settings={settings?.settings} onType={onType} />
              ),
            }}
          />
        </>
      )}
    </RecordForm>
  )
}

/** The folds, with the known species offered while typing. */
function useFoldsWithSpecies() {
  return useMemo(() => {
    const suggestions = birdSpecies().map(({ name }) => name)
    return FIND_FOLDS.map((fold) => ({
      ...fold,
      fields: fold.fields.map((field) =>
        field.key === 'species' ? { ...field, suggestions } : field,
      ),
    }))
  }, [])
}
