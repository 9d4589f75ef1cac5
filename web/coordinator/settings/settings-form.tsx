import { useRef, useState } from 'react'
import { BirdSettingsRecord } from '#contract/bird-settings.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import { useBirdSettingsChange } from '../../api/bird-settings.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { BuffersSection } from './buffers-section.tsx'
import { GuidanceSection } from './guidance-section.tsx'
import { IndexSection } from './index-section.tsx'
import { MeasuresSection } from './measures-section.tsx'
import {
  draftOfChosenSettings,
  draftOfSettings,
  fieldsOfSettings,
  SETTINGS_KEY,
  type SettingsDraft,
  settingsDrafts,
} from './settings-draft.ts'
import { SETTINGS_FIELDS } from './settings-fields.ts'
import { SpeciesSection } from './species-section.tsx'
import { TimesSection } from './times-section.tsx'
import { WeightsSection } from './weights-section.tsx'

/** Everything that bird work goes by, in one form; what is typed is kept until it is saved. */
export function SettingsForm({ record }: { readonly record: BirdSettingsRecord }) {
  const form = useRef<HTMLFormElement>(null)
  const [opened, setOpened] = useState(() => draftOfSettings(record))
  const kept = settingsDrafts.use(SETTINGS_KEY)
  const draft = kept ?? opened
  const [newer, setNewer] = useState<BirdSettingsRecord | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const change = useBirdSettingsChange()
  const standing = newer && newer.version > record.version ? newer : record
  const letGo = (next: BirdSettingsRecord) => {
    settingsDrafts.keep(SETTINGS_KEY, null)
    setOpened(draftOfSettings(next))
    setNewer(null)
    setFault(null)
  }
  const save = ({ settings, version }: SettingsDraft) => {
    const parsed = BirdSettings.safeParse(settings)
    setFault(parsed.success ? null : `Not whole yet: ${parsed.error.issues[0]?.path.join(', ')}.`)
    if (!parsed.success || showFirstFault(form.current)) return
    change.mutate(
      { settings: parsed.data, version },
      { onSuccess: letGo, onError: (error) => setNewer(newerOf(error)) },
    )
  }
  const props = {
    settings: draft.settings,
    onChange: (part: Partial<BirdSettings>) =>
      settingsDrafts.keep(SETTINGS_KEY, {
        ...draft,
        settings: { ...draft.settings, ...part },
      }),
  }
  return (
    <form
      ref={form}
      className="stack"
      aria-label="Settings of bird work"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        save(draft)
      }}
    >
      <Meanwhile
        thing={{ subject: 'bird-settings', subjectId: SETTINGS_KEY, feederId: null }}
        what="these settings"
        fields={SETTINGS_FIELDS}
        typedOn={draft.version}
        base={draft.base}
        mine={fieldsOfSettings(draft.settings)}
        standing={{
          version: standing.version,
          fields: fieldsOfSettings(standing.settings),
          isDeleted: false,
        }}
        isRefused={newer !== null}
        isSaving={change.isPending}
        onSave={(chosen) => {
          const merged = draftOfChosenSettings(chosen, standing)
          settingsDrafts.keep(SETTINGS_KEY, merged)
          save(merged)
        }}
        onDropMine={() => letGo(standing)}
      />
      <GuidanceSection {...props} />
      <SpeciesSection {...props} />
      <MeasuresSection {...props} />
      <WeightsSection {...props} />
      <BuffersSection {...props} />
      <TimesSection {...props} />
      <IndexSection {...props} />
      {fault && <ErrorNote title="Not saved." error={fault} />}
      {change.error && !newerOf(change.error) && (
        <ErrorNote title="Not saved; what you typed is still here." error={change.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={kept === null || change.isPending}>
          {change.isPending ? 'Saving…' : 'Save the settings'}
        </Button>
        {kept && <Button onClick={() => letGo(standing)}>Give up the changes</Button>}
      </div>
    </form>
  )
}

/** Opens the part with the first field that cannot be kept, and goes there. */
function showFirstFault(form: HTMLFormElement | null): boolean {
  const field = form?.querySelector<HTMLElement>('[aria-invalid="true"]')
  if (!field) return false
  const part = field.closest('details')
  if (part) part.open = true
  field.focus()
  return true
}

function newerOf(error: Error | null): BirdSettingsRecord | null {
  if (!(error instanceof ProblemError)) return null
  return BirdSettingsRecord.safeParse(error.problem.current).data ?? null
}
