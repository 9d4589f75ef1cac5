import { type NestBody, NestRecord } from '#contract/nests.ts'
import { useBirdSettings } from '../../api/bird-settings.ts'
import { useNestChanges } from '../../api/nests.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { localToday } from '../../state/today.ts'
import { BufferRules } from './buffer-rules.tsx'
import { FieldFolds } from './field-folds.tsx'
import { bodyOfNest, fieldsOfNest, newNest } from './nest-body.ts'
import { NEST_FIELDS, NEST_FOLDS } from './nest-fields.ts'
import { PlaceChoice } from './place-choice.tsx'
import { RecordForm } from './record-form.tsx'
import { SeasonRows } from './season-rows.tsx'
import { useRecordSave } from './use-record-save.ts'

interface Props {
  /** Null to record a new one. */
  readonly nest: NestRecord | null
  readonly onSaved: (nest: NestRecord) => void
  readonly onDone: () => void
}

/** Records or edits a nest: where it is, how it fares by season, and what keeps work away. */
export function NestForm({ nest, onSaved, onDone }: Props) {
  const { feeder, poleById } = useFeeder()
  const { pole } = useSelection()
  const feederId = feeder.header.id
  const changes = useNestChanges(feederId)
  const { data: settings } = useBirdSettings()
  const today = localToday()
  const placeOf = (id: string) => poleById.get(id)?.at
  const saving = useRecordSave<NestBody, NestRecord>({
    changes,
    id: nest?.id ?? null,
    schema: NestRecord,
    check: (typed) => bodyOfNest(typed, placeOf),
    onSaved: (kept) => {
      onDone()
      onSaved(kept)
    },
  })
  return (
    <RecordForm
      title={nest ? `Edit the nest: ${nest.species}` : 'Record a nest'}
      what="this nest"
      draftKey={`nest~${feederId}~${nest?.id ?? 'new'}`}
      begin={() => newNest(today, pole, (pole !== null && placeOf(pole)) || null)}
      record={nest}
      thing={nest && { subject: 'nest', subjectId: nest.id, feederId }}
      fields={NEST_FIELDS}
      fieldsOf={fieldsOfNest}
      saving={saving}
      onRestore={(version, goOn) =>
        nest && changes.restore.mutate({ id: nest.id, version }, { onSuccess: goOn })
      }
      onDone={onDone}
    >
      {(typed, faults, onType) => (
        <>
          <PlaceChoice typed={typed} faults={faults} onType={onType} />
          <FieldFolds
            folds={NEST_FOLDS}
            typed={typed}
            faults={faults}
            onType={onType}
            heads={{
              'Buffer and season of its own': (
                <BufferRules
                  species={typed.species ?? ''}
                  settings={settings?.settings}
                  onType={onType}
                />
              ),
            }}
          />
          <SeasonRows
            text={typed.seasons ?? ''}
            thisYear={Number(today.slice(0, 4))}
            onType={(seasons) => onType({ seasons })}
          />
        </>
      )}
    </RecordForm>
  )
}
